# An invented year of a service, read and counted by R on its own. Usage:
#   Rscript count-year.R count-year.csv > count-year-golden.json
# R 4.2 with survival 3.5; nothing of Veinwright is used.
library(survival)
args <- commandArgs(trailingOnly = TRUE)
d <- read.csv(args[1], colClasses = "character", na.strings = c("", "not measured", "not known", "not asked", "refused"))
# Wall clock minutes; every row of the file stands at +01:00, so the wall clock is one clock.
wall <- function(text) {
  timed <- nchar(text) > 10
  t <- ifelse(is.na(text), NA, ifelse(timed, substr(text, 1, 16), paste0(text, "T12:00")))
  as.numeric(as.POSIXct(t, format = "%Y-%m-%dT%H:%M", tz = "UTC")) / 60
}
date <- function(text) as.numeric(as.Date(substr(text, 1, 10)))
inn <- wall(d$placed_at); out <- wall(d$end_at)
same <- !grepl("T", d$placed_at) & !grepl("T", d$end_at) & d$placed_at == d$end_at
out[same] <- out[same] + 360; inn[same] <- inn[same] - 360
out <- pmax(out, inn + 1)
from <- as.numeric(as.Date("2025-01-01")); to <- as.numeric(as.Date("2026-01-01"))
exact <- pmax(0, pmin(out, to * 1440) - pmax(inn, from * 1440)) / 1440
calendar <- pmax(0, pmin(date(d$end_at), to - 1) - pmax(date(d$placed_at), from) + 1)
events <- do.call(rbind, lapply(seq_len(nrow(d)), function(i) {
  if (is.na(d$events[i])) return(NULL)
  parts <- trimws(strsplit(d$events[i], ";")[[1]])
  data.frame(i = i, kind = sub("@.*", "", parts), on = date(sub("^[^@]*@", "", parts)),
             surveillance = grepl("surveillance=yes", parts))
}))
inside <- events$on >= from & events$on < to
after <- events$on - date(d$end_at)[events$i]
removed <- d$end_kind[events$i] == "removed"
allowed <- ifelse(events$kind == "infection", 1, ifelse(events$kind == "thrombosis", 7, 0))
belongs <- !removed | after <= allowed
e <- events[inside & belongs, ]
# surveillance: day 3 or later, once in 14 days of one patient
s <- events[events$kind == "infection" & events$surveillance & belongs, ]
s$day <- s$on - date(d$placed_at)[s$i] + 1
s <- s[s$day >= 3, ]; s$patient <- d$patient_key[s$i]; s <- s[order(s$patient, s$on), ]
keep <- logical(nrow(s)); last <- -Inf; who <- ""
for (k in seq_len(nrow(s))) {
  if (s$patient[k] != who) { who <- s$patient[k]; last <- -Inf }
  if (s$on[k] - last >= 14) { keep[k] <- TRUE; last <- s$on[k] }
}
s <- s[keep & s$on >= from & s$on < to, ]
num <- function(x) formatC(x, digits = 15, format = "g")
lines <- character()
put <- function(name, value) lines <<- c(lines, sprintf('  "%s": %s', name, num(value)))
rate <- function(name, x, days) {
  ci <- poisson.test(x, days)$conf.int
  put(paste0(name, ".events"), x); put(paste0(name, ".days"), days); put(paste0(name, ".rate"), 1000 * x / days)
  put(paste0(name, ".lower"), 1000 * ci[1]); put(paste0(name, ".upper"), 1000 * ci[2])
}
share <- function(name, x, n) {
  ci <- binom.test(x, n)$conf.int
  put(paste0(name, ".numerator"), x); put(paste0(name, ".denominator"), n); put(paste0(name, ".lower"), ci[1]); put(paste0(name, ".upper"), ci[2])
}
groups <- list(all = rep(TRUE, nrow(d)))
for (w in sort(unique(d$ward))) groups[[paste0("ward ", w)]] <- d$ward == w
for (l in sort(unique(d$lumens))) groups[[paste0("lumens ", l)]] <- d$lumens == l
ratio <- as.numeric(d$size_fr) / 3 / as.numeric(d$vein_diameter_mm) * 100
band <- ifelse(is.na(ratio), "not known", ifelse(ratio > 45, "over 45 %", ifelse(ratio > 100 / 3, "33.3 to 45 %", "up to 33.3 %")))
for (b in sort(unique(band))) groups[[paste0("ratio band ", b)]] <- band == b
placed <- date(d$placed_at) >= from & date(d$placed_at) < to
gone <- d$end_kind == "removed" & date(d$end_at) >= from & date(d$end_at) < to
attempts <- as.numeric(d$attempts); dwell <- (out - inn) / 1440
for (g in names(groups)) {
  m <- groups[[g]]
  for (k in c("occlusion", "thrombosis")) rate(paste(g, k), sum(e$kind == k & m[e$i]), sum(exact[m]))
  rate(paste(g, "infection-clinical"), sum(e$kind == "infection" & m[e$i]), sum(exact[m]))
  rate(paste(g, "infection-surveillance"), sum(m[s$i]), sum(calendar[m]))
  rate(paste(g, "any-complication"), sum(m[e$i]), sum(exact[m]))
  ok <- m & placed & !is.na(attempts)
  share(paste(g, "first-attempt"), sum(attempts[ok] == 1), sum(ok))
  share(paste(g, "short-stay"), sum(dwell[m & gone] <= 5), sum(m & gone))
  known <- m & placed & !is.na(ratio)
  if (sum(known) > 0) share(paste(g, "ratio-within"), sum(ratio[known] <= 45), sum(known))
}
# Curves and models over the whole file: time to the first event of a kind, other ends competing.
first <- function(kind) {
  x <- rep(NA_real_, nrow(d))
  for (k in which(events$kind == kind & belongs)) {
    part <- trimws(strsplit(d$events[events$i[k]], ";")[[1]])
    part <- part[grepl(paste0("^", kind), part)][1]
    t <- wall(sub(" .*", "", sub("^[^@]*@", "", part)))
    x[events$i[k]] <- t
  }
  x
}
occ <- first("occlusion")
has <- !is.na(occ)
t <- ifelse(has, pmin(pmax(occ - inn, 1), out - inn), out - inn) / 1440
state <- ifelse(has, 1, ifelse(d$end_kind == "removed", 2, 0))
one <- survfit(Surv(t, state == 1) ~ 1, conf.type = "log-log")
aj <- survfit(Surv(t, factor(state, 0:2)) ~ 1)
for (day in c(7, 14, 30)) {
  k <- summary(one, times = day); put(paste("km", day), k$surv); put(paste("km", day, "lower"), k$lower); put(paste("km", day, "upper"), k$upper)
  a <- summary(aj, times = day); put(paste("aj", day, "event"), a$pstate[2]); put(paste("aj", day, "other"), a$pstate[3]); put(paste("aj", day, "se"), a$std.err[2])
}
lr <- survdiff(Surv(t, state == 1) ~ d$lumens); put("log-rank lumens", lr$chisq)
ls <- survdiff(Surv(t, state == 1) ~ d$side + strata(d$ward)); put("log-rank side by ward", ls$chisq)
x <- data.frame(t, ev = state == 1, lumens = as.numeric(d$lumens), ratio = ratio / 5, position = as.numeric(d$position_percent) / 10, age = as.numeric(d$age_years) / 10, id = d$patient_key)
x <- x[complete.cases(x), ]
cx <- coxph(Surv(t, ev) ~ lumens + ratio + position + age + cluster(id), x, ties = "efron")
put("cox rows", nrow(x)); put("cox events", sum(x$ev))
for (v in names(coef(cx))) { put(paste("cox", v), coef(cx)[v]); put(paste("cox", v, "robust se"), sqrt(cx$var[v == names(coef(cx)), v == names(coef(cx))])); put(paste("cox", v, "se"), sqrt(cx$naive.var[v == names(coef(cx)), v == names(coef(cx))])) }
cc <- concordance(cx); put("cox concordance", cc$concordance); put("cox concordance se", sqrt(cc$var))
# A gamma frailty of the patient: R's own search for its variance stops early, so the fit at a given variance is climbed.
shared <- function(theta) { th <<- theta; suppressWarnings(coxph(Surv(t, ev) ~ lumens + ratio + position + age + frailty(id, theta = th, sparse = TRUE), x, control = coxph.control(eps = 1e-12, iter.max = 200, toler.chol = 1e-14))) }
best <- optimize(function(theta) shared(theta)$history[[1]]$c.loglik, c(0.01, 2), maximum = TRUE, tol = 1e-7)$maximum
fr <- shared(best); put("cox shared variance", best)
put("cox shared chance", pchisq(2 * (fr$history[[1]]$c.loglik - cx$loglik[2]), 1, lower.tail = FALSE) / 2)
for (v in names(coef(cx))) put(paste("cox shared", v), coef(fr)[v])
# Whole days, as services pool them: up to the next whole day.
td <- ceiling(t - 1e-9)
lp <- survdiff(Surv(td, state == 1) ~ d$side + strata(d$ward)); put("pooled log-rank side by ward, whole days", lp$chisq)
# Mantel-Haenszel rate ratio of occlusion, left over right arm, by ward (Greenland and Robins)
ev <- sapply(split(seq_len(nrow(d)), list(d$ward, d$side)), function(i) c(sum(e$kind == "occlusion" & e$i %in% i), sum(exact[i])))
w <- sort(unique(d$ward)); a <- ev[1, paste0(w, ".left arm")]; n1 <- ev[2, paste0(w, ".left arm")]; b <- ev[1, paste0(w, ".right arm")]; n0 <- ev[2, paste0(w, ".right arm")]
R <- sum(a * n0 / (n1 + n0)) / sum(b * n1 / (n1 + n0)); put("mh ratio", R)
v <- sum((a + b) * n1 * n0 / (n1 + n0)^2) / (sum(a * n0 / (n1 + n0)) * sum(b * n1 / (n1 + n0)))
put("mh lower", R * exp(-qnorm(.975) * sqrt(v))); put("mh upper", R * exp(qnorm(.975) * sqrt(v)))
# The same over the whole file by the calendar, as services pool it
ca <- pmax(0, pmin(date(d$end_at), to - 1) - date(d$placed_at) + 1)
eo <- events[events$kind == "occlusion" & belongs & events$on < to, ]
ev <- sapply(split(seq_len(nrow(d)), list(d$ward, d$side)), function(i) c(sum(eo$i %in% i), sum(ca[i])))
a <- ev[1, paste0(w, ".left arm")]; n1 <- ev[2, paste0(w, ".left arm")]; b <- ev[1, paste0(w, ".right arm")]; n0 <- ev[2, paste0(w, ".right arm")]
R <- sum(a * n0 / (n1 + n0)) / sum(b * n1 / (n1 + n0)); put("pooled mh ratio", R)
v <- sum((a + b) * n1 * n0 / (n1 + n0)^2) / (sum(a * n0 / (n1 + n0)) * sum(b * n1 / (n1 + n0)))
put("pooled mh lower", R * exp(-qnorm(.975) * sqrt(v))); put("pooled mh upper", R * exp(qnorm(.975) * sqrt(v)))
cat("{\n", paste(lines, collapse = ",\n"), "\n}\n", sep = "")
