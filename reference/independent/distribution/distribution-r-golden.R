# Tails and quantiles by R itself, a second witness beside mpmath. Base R only.
# Run: Rscript distribution-r-golden.R > distribution-r-golden.json
rows <- character()
put <- function(kind, input, value) rows <<- c(rows, sprintf('{"kind":"%s","input":[%s],"value":%.17g}', kind,
  paste(sprintf("%.17g", input), collapse = ","), value))
for (p in c(1e-12, 0.00135, 0.025, 0.3, 0.6, 0.975)) {
  for (df in c(1, 7, 40, 2000, 50000)) put("chiSquareQuantile", c(p, df), qchisq(p, df))
  for (df in c(1, 4, 119)) put("studentQuantile", c(p, df), qt(p, df))
  for (m in c(0.5, 3.07, 250, 12000)) put("poissonSignalCount", c(p, m), qpois(p, m, lower.tail = FALSE) + 1)
  for (s in list(c(1, 0.0193482688), c(5, 0.02), c(3, 0.5))) put("negativeBinomialQuantile", c(p, s), qnbinom(p, s[1], s[2]))
}
# pf, not qf: R 4.2.2's qf is off by 6e-10 at p 0.00135 with 1 and 30 and answers 0 at p 1e-12, against mpmath
for (f in c(0.3, 0.99, 2.5, 40)) for (d in list(c(1, 30), c(8, 2), c(200, 3000))) put("fTail", c(f, d), pf(f, d[1], d[2]))
for (k in c(0, 3, 44, 500)) for (s in list(c(1, 0.0193482688), c(5, 0.02), c(12.5, 0.3)))
  put("negativeBinomialAtMost", c(k, s), pnbinom(k, s[1], s[2]))
cat('{"made":"', R.version.string, '","rows":[\n', paste(rows, collapse = ",\n"), "\n]}\n", sep = "")
