# Ten pumps with the doubt about shape and rate counted in, by nested adaptive quadrature over shape and rate.
# usage: Rscript --vanilla full-bayes-golden.R > full-bayes-golden.json
x <- c(5, 1, 5, 14, 3, 19, 1, 1, 4, 22)
T <- c(94.32, 15.72, 62.88, 125.76, 5.24, 31.44, 1.048, 1.048, 2.096, 10.48)
logdensity <- function(a, b) sapply(b, function(b) sum(lgamma(a + x) - lgamma(a) + a * log(b) - (a + x) * log(b + T))) +
  dexp(a, 1, log = TRUE) + dgamma(b, 0.1, 1, log = TRUE)
top <- logdensity(0.7, 0.9)
# the rate is taken as exp(u), so that its density near zero is smooth
inner <- function(f) function(a) sapply(a, function(a) integrate(function(u) { b <- exp(u)
  f(a, b) * exp(logdensity(a, b) - top) * b }, -45, 4, rel.tol = 1e-10, subdivisions = 2000)$value)
outer <- function(f) integrate(inner(f), 1e-9, 12, rel.tol = 1e-9, subdivisions = 500)$value
total <- outer(function(a, b) 1 + 0 * b)
mean <- function(f) outer(f) / total
shape <- mean(function(a, b) a + 0 * b); rate <- mean(function(a, b) b)
sds <- sqrt(c(mean(function(a, b) a^2 + 0 * b) - shape^2, mean(function(a, b) b^2) - rate^2))
units <- sapply(seq_along(x), function(i) mean(function(a, b) (a + x[i]) / (b + T[i])))
# quantiles of a unit's rate: the mixed distribution function by the same quadrature, its root by uniroot
below <- function(i, at) mean(function(a, b) pgamma(at, a + x[i], b + T[i]))
limit <- function(i, p, start) exp(uniroot(function(u) log(below(i, exp(u)) / p), log(start) + c(-0.01, 0.01), tol = 1e-10, extendInt = "upX")$root)
some <- c(1, 7)
lower <- mapply(limit, some, 0.025, c(0.021, 0.074))
upper <- mapply(function(i, start) exp(uniroot(function(u) log((1 - below(i, exp(u))) / 0.025), log(start) + c(-0.01, 0.01), tol = 1e-10, extendInt = "downX")$root),
  some, c(0.118, 2.78))
above <- sapply(c(5, 6, 7, 9), function(i) 1 - below(i, 0.5))
row <- function(v) paste0("[", paste(formatC(v, digits = 12, format = "g"), collapse = ", "), "]")
cat('{ "shape": ', row(c(shape, sds[1])), ', "rate": ', row(c(rate, sds[2])), ', "units": ', row(units), ',\n  "some": ', row(some),
  ', "lower": ', row(lower), ', "upper": ', row(upper), ',\n  "judged": [5, 6, 7, 9], "above": ', row(above), " }\n", sep = "")
