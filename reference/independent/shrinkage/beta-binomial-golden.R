# Shares of units as a beta-binomial: the likelihood from lbeta and lchoose, its top by nlm from several starts and Newton
# steps on numerical slopes; limits and chances by qbeta and pbeta. Also gamma-Poisson limits by qgamma, pgamma, pnbinom.
# Base R only. usage: Rscript --vanilla beta-binomial-golden.R > beta-binomial-golden.json
sets <- list( # invented; the last is spread so far that alpha and beta lie below one
  inserters = list(x = c(9, 0, 3, 4, 2, 7, 1, 5, 12, 0), n = c(61, 25, 70, 33, 91, 90, 18, 55, 48, 40)),
  wards = list(x = c(31, 12, 44, 9, 70, 25, 3), n = c(300, 280, 350, 150, 410, 333, 20)),
  few = list(x = c(1, 0, 2, 8), n = c(10, 12, 9, 11)),
  far = list(x = c(0, 19, 1, 20, 0, 3, 22, 0), n = c(20, 20, 15, 21, 9, 24, 25, 17)))
row <- function(v) paste0("[", paste(formatC(v, digits = 12, format = "g", width = 1), collapse = ", "), "]")
out <- character()
for (name in names(sets)) {
  x <- sets[[name]]$x; n <- sets[[name]]$n
  f <- function(t) { a <- exp(t[1]); b <- exp(t[2]); -sum(lchoose(n, x) + lbeta(a + x, b + n - x) - lbeta(a, b)) }
  # slopes of lbeta are differences of digamma
  g <- function(t) { a <- exp(t[1]); b <- exp(t[2]); s <- a + b
    -c(a * sum(digamma(a + x) - digamma(s + n) - digamma(a) + digamma(s)), b * sum(digamma(b + n - x) - digamma(s + n) - digamma(b) + digamma(s))) }
  best <- NULL
  for (start in list(c(0, 2), c(2, 5), c(-1, -1))) { o <- optim(start, f, g, method = "BFGS", control = list(reltol = 1e-15, maxit = 5000)); if (is.null(best) || o$value < best$value) best <- o }
  t <- best$par
  for (k in 1:30) { h <- 1e-5; H <- cbind(g(t + c(h, 0)) - g(t - c(h, 0)), g(t + c(0, h)) - g(t - c(0, h))) / (2 * h); t <- t - solve(H, g(t)) }
  a <- exp(t[1]); b <- exp(t[2])
  out <- c(out, sprintf('  "%s": { "count": %s, "number": %s, "alpha": %s, "beta": %s, "logLikelihood": %s,\n    "mean": %s,\n    "lower": %s,\n    "upper": %s,\n    "above": %s }',
    name, row(x), row(n), row(a), row(b), row(-f(t)), row((a + x) / (a + b + n)), row(qbeta(0.025, a + x, b + n - x)),
    row(qbeta(0.975, a + x, b + n - x)), row(pbeta(0.05, a + x, b + n - x, lower.tail = FALSE))))
}
out <- gsub('(alpha|beta|logLikelihood)": \\[([^]]*)\\]', '\\1": \\2', out)
gamma <- list(c(4, 4000, 7, 4321.5), c(0.5, 0, 7, 4321.5), c(0.8222684, 1.258954, 1, 1.048), c(12, 30000, 0, 850), c(0.3, 10, 0, 2))
rows <- sapply(gamma, function(p) { s <- p[1] + p[3]; r <- p[2] + p[4]
  row(c(p, qgamma(c(0.025, 0.975), s, r), pgamma(2 / p[4], s, r, lower.tail = FALSE), pnbinom(3, s, r / (r + 1500), lower.tail = FALSE))) })
cat("{\n", paste(c(out, paste0('  "gamma": [', paste(rows, collapse = ",\n    "), "]")), collapse = ",\n"), "\n}\n", sep = "")
