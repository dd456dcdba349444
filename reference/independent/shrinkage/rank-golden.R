# Chance of every place of units whose rates are gammas, by integrate over the unit's own density. Base R only.
# usage: Rscript --vanilla rank-golden.R > rank-golden.json
sets <- list(pumps = list(s = 0.822268413 + c(5, 1, 5, 14, 3, 19, 1, 1, 4, 22), r = 1.25895417 + c(94.32, 15.72, 62.88, 125.76, 5.24, 31.44, 1.048, 1.048, 2.096, 10.48)),
  near = list(s = c(4, 6, 0.7), r = c(3, 5, 1)))
# what integrate cannot tell from nought is nought
row <- function(v) paste0("[", paste(formatC(ifelse(v < 5e-9, 0, v), digits = 11, format = "g", width = 1), collapse = ", "), "]")
out <- sapply(names(sets), function(name) { s <- sets[[name]]$s; r <- sets[[name]]$r; m <- length(s)
  rows <- sapply(1:m, function(i) {
    above <- function(l) { d <- 1; for (j in setdiff(1:m, i)) { p <- pgamma(l, s[j], r[j], lower.tail = FALSE); d <- c(d * (1 - p), 0) + c(0, d * p) }; d }
    # in logarithms of the rate, so that a shape under one has no pole
    row(sapply(1:m, function(k) integrate(function(u) sapply(u, function(u) dgamma(exp(u), s[i], r[i]) * exp(u) * above(exp(u))[k]), -40, 6, rel.tol = 1e-10, abs.tol = 1e-13, subdivisions = 4000)$value))
  })
  sprintf('  "%s": { "shape": %s, "rate": %s,\n    "chances": [%s] }', name, row(s), row(r), paste(rows, collapse = ",\n      "))
})
cat("{\n", paste(out, collapse = ",\n"), "\n}\n", sep = "")
