# Limits, ratios and tests of counts, rates and proportions, from R's own functions and, where base R has none, from a
# root of the defining equation (uniroot, tolerance 1e-13). Base R only.
# Run: Rscript incidence-golden.R > incidence-golden.json
# British doctors: Breslow 1985 after Doll and Hill, as shipped in the R package boot 1.3-28.1 (licence: unlimited).
root <- function(f, lo, hi) uniroot(f, c(lo, hi), tol = 1e-13, maxiter = 10000)$root
rows <- list()
put <- function(kind, input, value) rows[[length(rows) + 1]] <<- sprintf('{"kind":"%s","input":[%s],"value":[%s]}', kind,
  paste(sprintf("%.17g", input), collapse = ","), paste(sprintf("%.17g", value), collapse = ","))

for (x in c(0, 1, 2, 3, 5, 7, 10, 20, 41, 100, 1000, 25000)) for (level in c(0.8, 0.95, 0.99)) {
  a <- (1 - level) / 2; z <- qnorm(1 - a)
  put("exact", c(x, level), c(if (x == 0) 0 else qchisq(a, 2 * x) / 2, qchisq(a, 2 * x + 2, lower.tail = FALSE) / 2))
  up <- x + 12 * sqrt(x + 4)
  put("mid-P", c(x, level), c(
    if (x == 0) 0 else root(function(m) ppois(x, m, lower.tail = FALSE) + dpois(x, m) / 2 - a, max(1e-9, x - 12 * sqrt(x)), x),
    root(function(m) ppois(x, m) - dpois(x, m) / 2 - a, max(x, 1e-3), up)))
  put("Byar", c(x, level), c(if (x == 0) 0 else x * max(0, 1 - 1 / (9 * x) - z / (3 * sqrt(x)))^3,
    (x + 1) * (1 - 1 / (9 * (x + 1)) + z / (3 * sqrt(x + 1)))^3))
  put("score", c(x, level), x + z^2 / 2 + c(-1, 1) * z * sqrt(x + z^2 / 4))
}
for (p in list(c(7, 4.3215), c(0, 0.85), c(3, 3), c(12, 3.07), c(2, 10.3), c(40, 73.5), c(300, 250), c(1, 8.2)))
  put("poisson.test", p, c(poisson.test(p[1], r = p[2])$p.value, ppois(p[1] - 1, p[2], lower.tail = FALSE),
    ppois(p[1], p[2], lower.tail = FALSE) + dpois(p[1], p[2]) / 2))
for (p in list(c(41, 28010, 15, 19017), c(17, 100025, 3, 122268), c(8, 78531, 1, 77932), c(6, 2150, 1, 1890), c(4, 2150, 0, 1890),
               c(0, 500, 7, 900), c(400, 210000, 350, 200000))) {
  t <- poisson.test(p[c(1, 3)], p[c(2, 4)]); n <- p[1] + p[3]; x <- p[1]; back <- p[4] / p[2]
  odds <- function(q) q / (1 - q)
  lo <- if (x == 0) 0 else root(function(q) pbinom(x, n, q, lower.tail = FALSE) + dbinom(x, n, q) / 2 - 0.025, 1e-12, x / n)
  hi <- if (x == n) Inf else root(function(q) pbinom(x, n, q) - dbinom(x, n, q) / 2 - 0.025, max(x / n, 1e-12), 1 - 1e-12)
  big <- function(v) ifelse(is.finite(v), v, 1e999)
  p0 <- p[2] / (p[2] + p[4]); L <- pbinom(x - 1, n, p0) + dbinom(x, n, p0) / 2
  v <- c(t$conf.int, odds(lo) * back, if (is.finite(hi)) odds(hi) * back else Inf, t$p.value, 2 * min(L, 1 - L))
  v[!is.finite(v)] <- 1e308
  put("rateRatio", p, v)
}
for (p in list(c(81, 263), c(15, 148), c(0, 20), c(1, 29), c(29, 29), c(9, 10), c(312, 90000))) {
  x <- p[1]; n <- p[2]
  put("proportion", p, c(binom.test(x, n)$conf.int, prop.test(x, n, correct = FALSE)$conf.int,
    if (x == 0) 0 else qbeta(0.025, x + .5, n - x + .5), if (x == n) 1 else qbeta(0.975, x + .5, n - x + .5),
    if (x == 0) 0 else root(function(q) pbinom(x, n, q, lower.tail = FALSE) + dbinom(x, n, q) / 2 - 0.025, 1e-12, x / n),
    if (x == n) 1 else root(function(q) pbinom(x, n, q) - dbinom(x, n, q) / 2 - 0.025, max(x / n, 1e-12), 1 - 1e-12)))
}
for (p in list(c(5, 90, 6, 730), c(3, 30, 0, 365), c(12, 400, 40, 4000), c(2, 31, 9, 1000)))
  put("cluster", p, binom.test(p[1], p[1] + p[3], p[2] / (p[2] + p[4]), alternative = "greater")$p.value)

doctors <- data.frame(days1 = c(52407, 43248, 28612, 12663, 5317), events1 = c(32, 104, 206, 186, 102),
                      days0 = c(18790, 10673, 5710, 2585, 1462), events0 = c(2, 12, 28, 28, 31))
with(doctors, {
  N <- days1 + days0; M <- events1 + events0
  R <- sum(events1 * days0 / N) / sum(events0 * days1 / N)
  v <- sum(M * days1 * days0 / N^2) / (sum(events1 * days0 / N) * sum(events0 * days1 / N))
  d <- sum((events1 * days0 - events0 * days1) / N) / sum(days1 * days0 / N)
  se <- sqrt(sum((events1 * days0^2 + events0 * days1^2) / N^2)) / sum(days1 * days0 / N)
  chi <- sum(events1 - M * days1 / N)^2 / sum(M * days1 * days0 / N^2)
  put("doctors", as.vector(t(as.matrix(doctors[, c("events1", "days1", "events0", "days0")]))),
    c(R, R * exp(c(-1, 1) * qnorm(.975) * sqrt(v)), 1000 * d, 1000 * se, chi, pchisq(chi, 1, lower.tail = FALSE)))
  for (side in c("1", "0")) {
    x <- get(paste0("events", side)); T <- get(paste0("days", side)); w <- N / sum(N)
    y <- sum(w * x / T); vv <- sum(w^2 * x / T^2); m <- max(w / T)
    put("standardised", c(as.vector(rbind(x, T, N))), 1000 * c(y, vv / (2 * y) * qchisq(.025, 2 * y^2 / vv),
      (vv + m^2) / (2 * (y + m)) * qchisq(.975, 2 * (y + m)^2 / (vv + m^2))))
  }
})
cat('{"made":"', R.version.string, '","rows":[\n', paste(rows, collapse = ",\n"), "\n]}\n", sep = "")
