# Blocked lines of 2025 over exact line-days by lumens, age and arm: glm on the file that count-year.R counts.
# usage: Rscript --vanilla rate-model-golden.R > rate-model-golden.json
d <- read.csv("../r/count-year.csv", colClasses = "character", na.strings = c("", "not measured", "not known", "not asked", "refused"))
wall <- function(text) {
  t <- ifelse(is.na(text), NA, ifelse(nchar(text) > 10, substr(text, 1, 16), paste0(text, "T12:00")))
  as.numeric(as.POSIXct(t, format = "%Y-%m-%dT%H:%M", tz = "UTC")) / 60
}
date <- function(text) as.numeric(as.Date(substr(text, 1, 10)))
inn <- wall(d$placed_at); out <- wall(d$end_at)
same <- !grepl("T", d$placed_at) & !grepl("T", d$end_at) & d$placed_at == d$end_at
out[same] <- out[same] + 360; inn[same] <- inn[same] - 360
out <- pmax(out, inn + 1)
from <- as.numeric(as.Date("2025-01-01")); to <- as.numeric(as.Date("2026-01-01"))
d$days <- pmax(0, pmin(out, to * 1440) - pmax(inn, from * 1440)) / 1440
d$count <- sapply(seq_len(nrow(d)), function(i) {
  if (is.na(d$events[i])) return(0)
  parts <- trimws(strsplit(d$events[i], ";")[[1]]); kind <- sub("@.*", "", parts); on <- date(sub("^[^@]*@", "", parts))
  sum(kind == "occlusion" & on >= from & on < to & (d$end_kind[i] != "removed" | on <= date(d$end_at[i])))
})
d <- d[d$days > 0, ]
d$l <- as.numeric(d$lumens); d$a <- as.numeric(d$age_years) / 10; d$left <- as.numeric(d$side == "left arm")
fit <- glm(count ~ l + a + left, offset = log(days), family = poisson, data = d, control = glm.control(epsilon = 1e-14))
row <- function(v) paste0("[", paste(formatC(v, digits = 12, format = "g", width = 1), collapse = ", "), "]")
# profile limits by root finding on the deviance: confint interpolates between few points
X <- c("l", "a", "left")
limit <- function(name, side) {
  others <- setdiff(X, name); best <- deviance(fit)
  f <- function(b) deviance(glm(reformulate(others, "count"), offset = log(days) + b * d[[name]], family = poisson, data = d,
    control = glm.control(epsilon = 1e-14))) - best - qchisq(0.95, 1)
  b <- coef(fit)[[name]]; s <- sqrt(diag(vcov(fit)))[[name]]
  uniroot(f, sort(b + side * c(0.2, 5) * s), tol = 1e-12)$root
}
cat('{ "events": [', sum(d$count), '], "days": ', row(sum(d$days)), ',\n  "coefficients": ', row(coef(fit)[-1]), ',\n  "errors": ', row(sqrt(diag(vcov(fit)))[-1]),
  ',\n  "lower": ', row(sapply(X, limit, -1)), ',\n  "upper": ', row(sapply(X, limit, 1)), " }\n", sep = "")
