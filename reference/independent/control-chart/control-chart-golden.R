# Run lengths, gap limits, EWMA and run rules by R: chains solved by solve(), quantiles by R's own. Base R only.
# Run: Rscript control-chart-golden.R > control-chart-golden.json
rows <- character()
put <- function(kind, input, value) rows <<- c(rows, sprintf('{"kind":"%s","input":[%s],"value":[%s]}', kind,
  paste(sprintf("%.17g", input), collapse = ","), paste(sprintf("%.17g", value), collapse = ",")))
arl <- function(Q) solve(diag(nrow(Q)) - Q, rep(1, nrow(Q)))
count <- function(mean, k, h, grid, head = 0) {
  n <- round(h * grid); fall <- round(k * grid); Q <- matrix(0, n, n)
  for (s in 0:(n - 1)) for (x in 0:200) { to <- max(0, s + x * grid - fall); if (to < n) Q[s + 1, to + 1] <- Q[s + 1, to + 1] + dpois(x, mean) }
  arl(Q)[round(head * grid) + 1]
}
for (p in list(c(1, 1.5, 4, 2, 0), c(1, 1.5, 4, 2, 2), c(2, 1.5, 4, 2, 0), c(1, 1.5, 5, 2, 0), c(4, 5, 10, 1, 0), c(7, 5, 10, 1, 5),
               c(3.3, 4.2, 9.6, 5, 0), c(0.4, 0.75, 3, 4, 1.5)))
  put("count", p, count(p[1], p[2], p[3], p[4], p[5]))
bernoulli <- function(p, up, h) {
  Q <- matrix(0, h, h)
  for (s in 0:(h - 1)) { Q[s + 1, max(0, s - 1) + 1] <- 1 - p; if (s + up < h) Q[s + 1, s + up + 1] <- Q[s + 1, s + up + 1] + p }
  arl(Q)[1]
}
for (p in list(c(0.02, 34, 80), c(0.04, 34, 80), c(0.02, 34, 120), c(0.04, 34, 160), c(0.03, 22, 119), c(0.2, 3, 11)))
  put("bernoulli", p, bernoulli(p[1], p[2], p[3]))
# The sum watched at events, by simulation of the gaps: seed 20250101, 200,000 runs, standard error beside the mean.
set.seed(20250101)
for (p in list(c(2, 2, 1), c(2, 3, 2), c(1.5, 2, 1.5), c(3, 3, 3))) {
  R <- p[1]; h <- p[2]; rho <- p[3]; m <- 200000; S <- numeric(m); n <- integer(m); on <- seq_len(m)
  while (length(on)) {
    S[on] <- pmax(0, S[on] - (R - 1) * rexp(length(on), rho)) + log(R); n[on] <- n[on] + 1L; on <- on[S[on] < h]
  }
  put("events", p, c(mean(n), sd(n) / sqrt(m)))
}
for (m in c(0.5, 1, 2, 8, 40)) for (limit in c(2, 16, 60)) put("countChart", c(limit, m), 1 / ppois(limit, m, lower.tail = FALSE))
for (bound in c(0.00135, 0.01, 0.1)) for (gbar in c(2.5, 50.6842105263157894, 900)) {
  p <- 1 / (gbar + 1)
  put("gap", c(bound, gbar), c(qgeom(0.5, p), qgeom(bound, p), qgeom(bound, p, lower.tail = FALSE), pnbinom(44, 5, p)))
  put("exposure", c(bound, gbar), c(qexp(0.5, 1 / gbar), qexp(bound, 1 / gbar), qexp(bound, 1 / gbar, lower.tail = FALSE),
    pgamma(44, 5, 1 / gbar), pexp(44, 1 / gbar, lower.tail = FALSE)))
}
for (n in c(10, 12, 20, 24, 36, 75, 200)) put("run", n, c(round(log2(n) + 3), qbinom(0.05, n - 1, 0.5)))
# standardised ratios, mid-P
root <- function(f, lo, hi) uniroot(f, c(lo, hi), tol = 1e-13, maxiter = 10000)$root
for (p in list(c(4, 3.3), c(2, 2.04), c(0, 1.5), c(8, 3.59), c(53, 48.62), c(120, 97.5), c(12, 10.286))) {
  x <- p[1]; E <- p[2]; L <- ppois(x - 1, E) + dpois(x, E) / 2
  lo <- if (x == 0) 0 else root(function(m) ppois(x, m, lower.tail = FALSE) + dpois(x, m) / 2 - .025, 1e-9, x)
  hi <- root(function(m) ppois(x, m) - dpois(x, m) / 2 - .025, max(x, 1e-3), 3 * x + 20)
  put("ratio", p, c(lo / E, hi / E, 2 * min(L, 1 - L)))
}
# gaps by Nelson's power, and risk-adjusted sums, walked in R
gaps <- list(c(210, 840, 95, 1310, 44, 620, 505, 30, 975, 260), c(0, 3, 12, 7, 1, 55, 20), c(1500, 1400, 1450, 1600, 1380))
for (t in gaps) { y <- t^(1 / 3.6); m <- mean(abs(diff(y))); e <- 3 * m / 1.1283791670955126
  put("power", t, c(mean(y)^3.6, max(0, mean(y) - e)^3.6, (mean(y) + e)^3.6)) }
risk <- c(0.02, 0.05, 0.11, 0.3, 0.01, 0.08, 0.2, 0.04, 0.15, 0.06, 0.4, 0.03); y <- c(0, 1, 0, 1, 1, 0, 0, 1, 0, 0, 1, 1)
S <- Reduce(function(s, i) max(0, s + y[i] * log(2) - log(1 - risk[i] + 2 * risk[i])), seq_along(y), 0, accumulate = TRUE)[-1]
put("risk", c(risk, y), c(S, cumsum(risk - y)))
# EWMA of rates with the exact variance of each point
for (w in c(0.1, 0.3)) { x <- c(1, 0, 3, 2, 0, 5, 1, 4, 6, 2); n <- c(640, 702, 655, 690, 610, 715, 668, 702, 715, 689); u <- 0.0016; z <- u; v <- 0
  zs <- sapply(seq_along(x), function(i) { z <<- w * x[i] / n[i] + (1 - w) * z; v <<- (1 - w)^2 * v + w^2 * u / n[i]; c(z, u + 3 * sqrt(v)) })
  put("ewma", c(w, x, n), c(zs)) }
cat('{"made":"', R.version.string, '","rows":[\n', paste(rows, collapse = ",\n"), "\n]}\n", sep = "")
