# Wards against each other given all their events, and widened, by R's own tails; limits between whole counts by uniroot.
# usage: Rscript --vanilla ward-funnel-golden.R > ward-funnel-golden.json
x <- c(3, 9, 14, 2, 7, 21, 5, 11, 0, 6, 17, 4) # twelve invented wards
T <- c(410, 520, 790, 220, 330, 610, 390, 640, 190, 280, 880, 90)
X <- sum(x); q <- T / sum(T); E <- X * q
row <- function(v) paste0("[", paste(ifelse(is.na(v), "null", formatC(v, digits = 13, format = "g", width = 1)), collapse = ", "), "]")
more <- pbinom(x - 1, X, q, lower.tail = FALSE); less <- pbinom(x, X, q)
find <- function(f, low, high) tryCatch(uniroot(f, c(low, high), tol = 1e-13)$root, error = function(e) NA)
upper <- function(p) sapply(q, function(s) find(function(u) pbeta(s, u, X - u + 1) - p, 1e-9, X))
lower <- function(p) sapply(q, function(s) find(function(l) pbeta(s, l + 1, X - l, lower.tail = FALSE) - p, 0, X - 1e-9))
k <- 4 # between 0.25
wmore <- pnbinom(x - 1, size = k, mu = E, lower.tail = FALSE); wless <- pnbinom(x, size = k, mu = E)
wupper <- sapply(E, function(e) find(function(u) pbeta(e / (e + k), u, k) - 0.025, 1e-9, 1e4))
wlower <- sapply(E, function(e) find(function(l) pbeta(e / (e + k), l + 1, k, lower.tail = FALSE) - 0.025, 0, 1e4))
signal <- sapply(q, function(s) { n <- 0:X; n[pbinom(n - 1, X, s, lower.tail = FALSE) <= 0.025][1] })
doubling <- pbinom(signal - 1, X, 2 * q / (1 + q), lower.tail = FALSE)
false <- sapply(1:12, function(i) { n <- 0:X; d <- dbinom(n, X, q[i])
  sum(d[pbinom(n - 1, X, q[i], lower.tail = FALSE) <= 0.025 | pbinom(n, X, q[i]) <= 0.025]) })
cat('{ "events": ', row(x), ', "days": ', row(T), ',\n  "more": ', row(more), ',\n  "less": ', row(less),
  ',\n  "upper": ', row(upper(0.025)), ',\n  "lower": ', row(lower(0.025)), ',\n  "farUpper": ', row(upper(0.001)), ',\n  "farLower": ', row(lower(0.001)),
  ',\n  "wideMore": ', row(wmore), ',\n  "wideLess": ', row(wless), ',\n  "wideUpper": ', row(wupper), ',\n  "wideLower": ', row(wlower),
  ',\n  "doubling": ', row(doubling), ',\n  "byChance": ', row(sum(false)), " }\n", sep = "")
