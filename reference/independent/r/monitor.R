# Every number of the page on time (base, plan, daily sums, signals, charts, gaps, shared exposures), by R on its own. Usage:
#   Rscript monitor.R MONTH AS_OF BASE_FROM BASE_TO lines.csv ... > monitor-golden.json
#   e.g. Rscript monitor.R 2025-12 2026-01-15 2022-01-01 2024-01-01 monitor-small.csv
# Twice for each table: by all that lies before the year, and by a base frozen on the days named. Base R alone; written
# from the definitions (u chart and exact limits: Montgomery, ch. 7; sum: log-likelihood form of Lucas 1985 with exposure;
# gaps: sums of exponentials; surprise: Przyborowski and Wilenski 1940). The decision limit is not the closed form that is
# checked: the mean number of events to a signal solves an integral equation, by collocation on straight pieces with
# two grids and Richardson's extrapolation; good to about 1e-6 of the decision.
args <- commandArgs(trailingOnly = TRUE)
day0 <- function(text) as.numeric(as.Date(substr(text, 1, 10)))
months_on <- function(day, n) as.numeric(seq(as.Date(day, origin = "1970-01-01"), by = paste(n, "months"), length.out = 2)[2])
month_from <- day0(paste0(args[1], "-01")); year_to <- months_on(month_from, 1); year_from <- months_on(month_from, -11)
as_of <- day0(args[2]); frozen_from <- day0(args[3]); frozen_to <- day0(args[4])
# the service's own rules: rise looked for, months between false signals, alarm from, base events, chart from, chances
budget <- 20; alarm_from <- 3; base_least <- 20; monthly_from <- 30; gap_below <- 10; chance <- 0.00135; provisional <- 14; shared_chance <- 0.05; level <- 0.95
out <- character(); where <- ""
put <- function(...) {
  parts <- list(...); x <- parts[[length(parts)]]; name <- paste(unlist(parts[-length(parts)]), collapse = "|")
  if (length(x) == 0 || is.na(x)) return(invisible())
  out <<- c(out, sprintf('  "%s|%s": %s', where, name, formatC(as.numeric(x), digits = 13, format = "g", width = 1)))
}

source(file.path(dirname(sub("--file=", "", grep("^--file=", commandArgs(FALSE), value = TRUE))), "decision.R"))

one_table <- function(file) {
  d <- read.csv(file, colClasses = "character", na.strings = "", encoding = "UTF-8")
  n <- nrow(d)
  placed <- day0(d$placed_at); end_on <- day0(d$end_at)
  at <- function(text) ifelse(nchar(text) > 10, day0(text) + (as.numeric(substr(text, 12, 13)) * 60 + as.numeric(substr(text, 15, 16))) / 1440, NA)
  t_in <- at(d$placed_at); t_out <- at(d$end_at)
  gone <- d$end_kind %in% c("removed", "handed on"); ended <- ifelse(gone, end_on, NA)
  # noon for a date; half a day about noon for one date twice; half of what is left where noon would break the order
  from <- ifelse(is.na(t_in), placed + 0.5, t_in); to <- ifelse(is.na(t_out), end_on + 0.5, t_out)
  dates <- is.na(t_in) & is.na(t_out) & placed == end_on; from[dates] <- placed[dates] + 0.25; to[dates] <- end_on[dates] + 0.75
  i <- is.na(t_in) & !is.na(t_out) & from > to; from[i] <- (placed[i] + t_out[i]) / 2
  i <- !is.na(t_in) & is.na(t_out) & from > to; to[i] <- (end_on[i] + 1 + t_in[i]) / 2
  stop_row <- (!is.na(ended) & (ended < placed | ended > as_of)) | placed > as_of | to < from
  # dead and alive: whoever is placed a line, or seen with one for another reason, after the day of their first death
  died <- d$end_kind == "removed" & !is.na(d$end_reason) & d$end_reason == "died"
  for (p in unique(d$patient_key[died])) {
    own <- which(d$patient_key == p); dead <- own[died[own]]; first <- dead[which.min(end_on[dead])]
    alive <- own[pmax(placed[own], ifelse(died[own], -Inf, end_on[own])) > end_on[first]]
    if (length(alive) > 0) stop_row[c(alive, first)] <- TRUE
  }
  to <- pmax(to, from + 1 / 1440)
  ok <- !stop_row
  ev <- do.call(rbind, lapply(which(ok & !is.na(d$events)), function(i) {
    p <- trimws(strsplit(d$events[i], ";")[[1]])
    data.frame(i = i, kind = sub("@.*", "", p), on = day0(sub("^[^@]*@", "", p)), yes = grepl("clinical=yes", p))
  }))
  after <- ifelse(ev$kind == "infection", 1, ifelse(ev$kind == "thrombosis", 7, 0))
  ev <- ev[!(ev$on < placed[ev$i] | (!is.na(ended[ev$i]) & ev$on > ended[ev$i] + after)), ]
  # one infection of one person at two lines on one day counts once, for the line placed first
  infections <- which(ev$kind == "infection"); infections <- infections[order(placed[ev$i[infections]], ev$i[infections])]
  again <- infections[duplicated(paste(d$patient_key[ev$i[infections]], ev$on[infections]))]
  if (length(again) > 0) ev <- ev[-again, ]
  # days of each date, line by line: the share of the date between the two ends
  daily <- function(a, b) vapply(seq(a, b - 1), function(t) sum(pmax(0, pmin(to[ok], t + 1) - pmax(from[ok], t))), 0)
  days_in <- function(a, b) sum(pmax(0, pmin(to[ok], b) - pmax(from[ok], a)))
  of <- list("infection-clinical" = ev[ev$kind == "infection" & ev$yes, ], thrombosis = ev[ev$kind == "thrombosis", ], occlusion = ev[ev$kind == "occlusion", ])
  band <- function(p) ifelse(p < 1/3, "lower third", ifelse(p < 1/2, "lower half of the middle third", ifelse(p < 2/3, "preferred half", "upper third")))
  exposures <- list(ward = d$ward, setting = d$setting, lot = d$lot_key, catheter = d$catheter_key, inserter = d$inserter_key,
    size = d$size_fr, vein = d$vein, third = ifelse(is.na(d$position_percent), NA, band(as.numeric(d$position_percent) / 100)), diagnosis = d$diagnosis)
  table_from <- min(placed)

  page <- function(scope, base, decision = NULL) {
    per_year <- 365.25 * days_in(year_from, year_to) / (year_to - year_from)
    expected <- vapply(base, function(b) b$x / b$days * per_year, 0)
    # an alarm is kept where enough are expected and the base has enough; the budget is shared by those that are kept
    keeps <- expected >= alarm_from & vapply(base, function(b) b$x >= base_least, TRUE)
    alarms <- sum(keeps); years <- budget * alarms / 12
    rates <- numeric()
    h <- vapply(names(of), function(m) if (!keeps[[m]]) NA else if (is.null(decision)) decision_of(expected[[m]] * years) else decision[[m]], 0)
    for (m in names(of)) {
      b <- base[[m]]; E <- expected[[m]]; p <- function(...) put(scope, m, ...)
      p("expected a year", E); ci <- poisson.test(b$x, 1, conf.level = level)$conf.int
      p("base events", b$x); p("base", 1000 * b$x / b$days); p("base lower", 1000 * ci[1] / b$days); p("base upper", 1000 * ci[2] / b$days); p("enough", b$x >= base_least)
      picture <- if (E < alarm_from) 0 else if (E < gap_below) 1 else if (E < monthly_from) 2 else 3
      p("picture", picture)
      if (!is.na(h[[m]])) {
        quiet <- events_to(h[[m]], 1); shows <- events_to(h[[m]], R)
        p("decision", h[[m]]); p("years between", quiet / E); p("events to show", shows); p("months to show", 12 * shows / (R * E))
        rates <- c(rates, E / quiet / 12)
      }
      x_on <- of[[m]]$on; rate <- b$x / b$days
      # the u chart of the year
      edge <- year_from; step <- if (picture == 3) 1 else 3; k <- 0
      while (edge < year_to) {
        nxt <- min(months_on(edge, step), year_to); x <- sum(x_on >= edge & x_on < nxt); T <- days_in(edge, nxt); k <- k + 1
        q <- function(what, value) p(paste("span", k), what, value)
        q("events", x); q("days", T)
        if (T > 0 && rate > 0) {
          u <- x / T; half <- 3 * sqrt(rate / T); mu <- rate * T
          hi <- ppois(x - 1, mu, lower.tail = FALSE); lo <- ppois(x, mu)
          q("rate", u); q("classical lower", max(0, rate - half)); q("classical upper", rate + half); q("outside", u > rate + half || u < rate - half)
          q("as many", hi); q("as few", lo); q("signal", if (hi < chance) 1 else if (lo < chance) -1 else 0)
          # counts that would signal; half an event inside them is the limit drawn
          top <- 0; while (ppois(top - 1, mu, lower.tail = FALSE) >= chance) top <- top + 1
          q("drawn upper", 1000 * (top - 0.5) / T)
          if (ppois(0, mu) < chance) { low <- 0; while (ppois(low + 1, mu) < chance) low <- low + 1; q("drawn lower", 1000 * (low + 0.5) / T) }
        }
        edge <- nxt
      }
      # gaps in line-days, from the start of the year; several on one day are nought apart
      days <- daily(year_from, year_to); upto <- cumsum(days); here <- sort(x_on[x_on >= year_from & x_on < year_to])
      marks <- upto[here - year_from + 1]; gaps <- diff(c(0, marks))
      for (g in seq_along(gaps)) { p(paste("gap", g), gaps[g]); if (g >= 4 && rate > 0) p(paste("gap", g), "four", pgamma(sum(gaps[(g - 3):g]), 4, rate)) }
      p("since last", sum(days) - if (length(marks)) tail(marks, 1) else 0)
      # the sum, day by day
      if (is.na(h[[m]]) || b$x < base_least) next
      start <- if (is.null(decision)) year_from else frozen_to
      T <- daily(start, year_to); x <- vapply(seq(start, year_to - 1), function(t) sum(x_on == t), 0)
      S <- 0; since <- NA; found <- 0
      for (t in seq_along(T)) {
        before <- S; S <- max(0, S + x[t] * log(R) - (R - 1) * rate * T[t])
        if (before == 0) since <- t
        p("sum", start + t - 1, S)
        if (S >= h[[m]]) {
          found <- found + 1; s <- function(what, value) p(paste("signal", found), what, value)
          run <- since:t; on <- start + t - 1
          s("on", on); s("since", start + since - 1); s("events", sum(x[run])); s("days", sum(T[run])); s("expected", rate * sum(T[run]))
          all <- sum(x[run]) + b$x; share <- sum(T[run]) / (sum(T[run]) + b$days); xr <- sum(x[run])
          tail_of <- pbinom(xr - 1, all, share, lower.tail = FALSE); mid <- tail_of - dbinom(xr, all, share) / 2
          s("chance", tail_of); s("chance mid", mid); s("strong", mid < chance); s("provisional", on >= as_of - provisional)
          lines <- of[[m]]$i[x_on >= start + since - 1 & x_on <= on]; s("lines", length(lines))
          in_place <- which(ok & placed <= on & (is.na(ended) | ended >= start + since - 1))
          looked <- 0; seen <- list()
          for (e in names(exposures)) {
            v <- exposures[[e]]; own <- v[lines]; own <- own[!is.na(own)]; everyone <- v[in_place]; everyone <- everyone[!is.na(everyone)]
            for (value in unique(own)) {
              looked <- looked + 1; a <- sum(own == value); B <- sum(everyone == value)
              pr <- pbinom(a - 1, length(own), if (length(everyone)) B / length(everyone) else 1, lower.tail = FALSE)
              if (a >= 2) seen[[length(seen) + 1]] <- list(e, value, a, length(own), B, length(everyone), pr)
            }
          }
          s("looked at", looked); s("by coincidence", looked * shared_chance); named <- 0
          for (one in seen) {
            w <- function(what, value) p(paste("signal", found), paste(one[[1]], one[[2]]), what, value)
            w("in cluster", one[[3]]); w("cluster known", one[[4]]); w("in all", one[[5]]); w("all known", one[[6]]); w("chance", one[[7]])
            corrected <- min(1, looked * one[[7]]); w("after looking", corrected); named <- named + (corrected < shared_chance)
          }
          s("named", named)
          S <- 0
        }
      }
      p("signals", found)
    }
    put(scope, "alarms", alarms); per_month <- if (is.null(decision)) 1 / budget else sum(rates)
    put(scope, "months between", 1 / per_month); put(scope, "chance in a year", if (alarms == 0) 0 else 1 - exp(-12 * per_month))
  }

  own_base <- function(a, b) lapply(of, function(e) list(x = sum(e$on >= a & e$on < b), days = days_in(a, b)))
  page("moving", own_base(table_from, year_from))
  frozen <- own_base(frozen_from, frozen_to)
  # the decision was set on 1 January of the year drawn, at the volume since the base's end
  per_year <- 365.25 * days_in(frozen_to, year_from) / (year_from - frozen_to)
  E <- vapply(frozen, function(b) b$x / b$days * per_year, 0); years <- budget * sum(E >= alarm_from & vapply(frozen, function(b) b$x >= base_least, TRUE)) / 12
  held <- lapply(names(of), function(m) if (E[[m]] >= alarm_from && frozen[[m]]$x >= base_least) decision_of(E[[m]] * years) else NULL); names(held) <- names(of)
  if (!any(vapply(held, is.null, TRUE))) { for (m in names(of)) put("set", m, "decision", held[[m]]); page("frozen", frozen, held) }
}
for (file in args[-(1:4)]) { where <- sub("\\.csv$", "", basename(file)); one_table(file) }
cat("{\n", paste(out, collapse = ",\n"), "\n}\n", sep = "")
