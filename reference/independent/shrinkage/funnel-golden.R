# Scores of units against a target, their spread and chances, by R's own functions. Base R only.
# usage: Rscript --vanilla funnel-golden.R > funnel-golden.json
x <- c(3, 9, 14, 2, 7, 21, 5, 11, 0, 6, 17, 4) # twelve invented wards
T <- c(4.1, 5.2, 7.9, 2.2, 3.3, 6.1, 3.9, 6.4, 1.9, 2.8, 8.8, 0.9)
E <- sum(x) / sum(T) * T
row <- function(v) paste0("[", paste(formatC(v, digits = 13, format = "g", width = 1), collapse = ", "), "]")
pearson <- (x - E) / sqrt(E); root <- 2 * (sqrt(x) - sqrt(E))
below <- ppois(x - 1, E) + dpois(x, E) / 2; above <- ppois(x, E, lower.tail = FALSE) + dpois(x, E) / 2
mid <- ifelse(x > E, -qnorm(above), qnorm(below)); p <- pmin(1, 2 * pmin(below, above))
s <- sqrt(sum(x) / sum(T) / T) # standard errors on the scale of the rate
tau <- function(phi) { w <- 1 / s^2; max(0, (12 * phi - 11) / (sum(w) - sum(w^2) / sum(w))) }
order <- sort(pearson); q <- quantile(pearson, c(0.1, 0.9))
phi <- c(mean(pearson^2), mean(pmin(pmax(pearson, order[2]), order[11])^2), mean(pmin(pmax(pearson, q[1]), q[2])^2))
without <- sapply(1:12, function(i) sum(x[-i]) / sum(T[-i]))
cat('{ "count": ', row(x), ', "exposure": ', row(T), ',\n  "Pearson": ', row(pearson), ',\n  "midP": ', row(mid), ',\n  "root": ', row(root),
  ',\n  "phi": ', row(phi), ', "tau": ', row(sapply(phi, tau)), ',\n  "multiplicative": ', row(pearson / sqrt(phi[1])),
  ',\n  "additive": ', row(pearson * s / sqrt(s^2 + tau(phi[1]))), ',\n  "chance": ', row(p), ',\n  "discovery": ', row(p.adjust(p, "BH")),
  ',\n  "without": ', row(without), " }\n", sep = "")
