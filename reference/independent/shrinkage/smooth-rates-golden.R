# Penalised Poisson rates along a row of cells, by general tools of base R: optim for the place, dense matrices for the
# variance, optimize for the smoothing. Run in this folder: Rscript smooth-rates-golden.R > smooth-rates-golden.json
sets <- list(
  arm = list(y = c(3, 5, 4, 6, 2, 3, 1, 0, 2, 1, 1, 0), t = c(400, 700, 900, 1500, 900, 1300, 1100, 600, 1000, 800, 500, 150)),
  hole = list(y = c(9, 7, 0, 0, 2, 1, 0, 1), t = c(900, 1000, 0, 0, 1200, 900, 1100, 800)),
  peak = list(y = c(0, 1, 2, 8, 12, 6, 1, 0, 0, 1), t = c(500, 600, 700, 800, 900, 700, 600, 500, 500, 400)))
num <- function(x) paste0("[", paste(formatC(x, digits = 15, format = "g"), collapse = ","), "]")
out <- character()
for (name in names(sets)) {
  y <- sets[[name]]$y; t <- sets[[name]]$t; m <- length(y)
  K <- crossprod(diff(diag(m)))
  place <- function(s) {
    f <- function(h) -sum(y * h - t * exp(h)) + s / 2 * sum(diff(h)^2)
    g <- function(h) as.numeric(-(y - t * exp(h)) + s * K %*% h)
    h <- rep(log(sum(y) / sum(t)), m)
    h <- optim(h, f, g, method = "BFGS", control = list(maxit = 5000, reltol = 1e-15))$par
    for (k in 1:50) h <- h - solve(diag(t * exp(h)) + s * K, g(h))
    h
  }
  laml <- function(l) {
    s <- 10^l; h <- place(s); H <- diag(t * exp(h)) + s * K
    sum(y * h - t * exp(h)) - s / 2 * sum(diff(h)^2) + (m - 1) / 2 * log(s) - as.numeric(determinant(H)$modulus) / 2
  }
  l <- optimize(laml, c(-2, 6), maximum = TRUE, tol = 1e-10)$maximum
  h <- place(10^l); V <- solve(diag(t * exp(h)) + 10^l * K)
  out <- c(out, sprintf('  "%s": {"count": %s, "exposure": %s, "log10": %s, "log": %s, "error": %s, "marginal": %s}', name, num(y), num(t), formatC(l, digits = 12, format = "g"), num(h), num(sqrt(diag(V))), formatC(laml(l), digits = 15, format = "g")))
}
cat("{\n", paste(out, collapse = ",\n"), "\n}\n", sep = "")
