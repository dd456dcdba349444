# Every number of the monthly pack, from an agreed line table, by R on its own. Usage:
#   Rscript pack.R MONTH AS_OF lines.csv ... > pack-golden.json      e.g. Rscript pack.R 2025-12 2026-01-15 pack-year.csv
# Lots, where X.csv has an X-lots.csv beside it. The two cases are chosen here by the rule that the sheet prints.
# Base R and survival (survSplit, to cut stays at a period's edges); nothing of Veinwright is used. Dates alone, no times.
library(survival)
source(file.path(dirname(sub("--file=", "", grep("^--file=", commandArgs(FALSE), value = TRUE))), "decision.R"))
args <- commandArgs(trailingOnly = TRUE)
month_from <- as.numeric(as.Date(paste0(args[1], "-01")))
as_of <- as.numeric(as.Date(args[2]))
months_on <- function(day, n) as.numeric(seq(as.Date(day, origin = "1970-01-01"), by = paste(n, "months"), length.out = 2)[2])
month_to <- months_on(month_from, 1)
before_from <- months_on(month_from, -12)
year_from <- months_on(month_from, -11)
absent <- c("", "not measured", "not known", "not asked", "refused")
level <- 0.95
out <- character()
where <- ""
put <- function(...) {
  parts <- list(...); x <- parts[[length(parts)]]; name <- paste(unlist(parts[-length(parts)]), collapse = "|")
  if (length(x) == 0 || is.na(x)) return(invisible())
  out <<- c(out, sprintf('  "%s|%s": %s', where, gsub('"', '\\\\"', name), formatC(x, digits = 15, format = "g", width = 1)))
}
count_limits <- function(x) as.numeric(poisson.test(x, 1, conf.level = level)$conf.int)
share_limits <- function(x, n) as.numeric(binom.test(x, n, conf.level = level)$conf.int)

one_table <- function(file) {
  d <- read.csv(file, colClasses = "character", na.strings = absent, check.names = FALSE, encoding = "UTF-8")
  n_rows <- nrow(d)
  date <- function(text) as.numeric(as.Date(text))
  placed <- date(d$placed_at); end_at <- date(d$end_at)
  gone <- d$end_kind %in% c("removed", "handed on"); removed <- d$end_kind == "removed"; lost <- d$end_kind == "unknown"
  ended <- ifelse(gone, end_at, NA)
  known_from <- date(d$known_from); too_early <- !is.na(known_from) & known_from < placed
  # rows that stop: out before in, later than the table, or known here before they were placed
  stop_row <- too_early | (!is.na(ended) & ended < placed) | placed > as_of | (!is.na(ended) & ended > as_of)
  # dead and alive: a line of the person placed, seen or out for another reason after the first death; both rows stop
  died <- removed & !is.na(d$end_reason) & d$end_reason == "died"
  contradicted <- integer()
  for (p in unique(d$patient_key[died])) {
    own <- which(d$patient_key == p); dead <- own[died[own]]; first <- dead[which.min(end_at[dead])]
    alive <- own[pmax(placed[own], end_at[own] - died[own]) > end_at[first]]
    if (length(alive) > 0) contradicted <- c(contradicted, alive, first)
  }
  stop_row[contradicted] <- TRUE
  stopped <- sum(stop_row)
  ok <- !stop_row
  # stays in days, noon to noon, one date twice half a day about noon
  span <- function(a, b) { same <- a == b; data.frame(from = a + 0.5 - ifelse(same, 0.25, 0), to = b + 0.5 + ifelse(same, 0.25, 0)) }
  stay <- span(placed, end_at)
  longest_end <- ifelse(lost, as_of, end_at); longest <- span(placed, pmax(longest_end, placed))
  cache <- new.env()
  exact_in <- function(s, from, to, name) {
    key <- paste(name, from, to); if (!is.null(cache[[key]])) return(cache[[key]])
    # survSplit cuts each stay at the edges of the period; what lies between them is counted
    x <- data.frame(id = seq_len(nrow(s)), a = s$from, b = s$to, ev = 0)
    cut <- survSplit(Surv(a, b, ev) ~ ., x, cut = c(from, to), episode = "ep")
    inside <- cut[cut$ep == 2, ]
    days <- numeric(nrow(s)); sums <- tapply(inside$b - inside$a, inside$id, sum)
    days[as.integer(names(sums))] <- sums
    cache[[key]] <- days
    days
  }
  calendar_in <- function(a, b, from, to) pmax(0, pmin(b, to - 1) - pmax(a, from) + 1)
  events <- do.call(rbind, c(list(data.frame(i = integer(), kind = character(), on = numeric(), clinical = character())), lapply(which(!is.na(d$events)), function(i) {
    parts <- trimws(strsplit(d$events[i], ";")[[1]]); parts <- parts[parts != "none" & !grepl("@ *not known$", parts)]
    if (length(parts) == 0) return(NULL)
    data.frame(i = i, kind = sub("@.*", "", parts), on = date(sub(" .*", "", sub("^[^@]*@", "", parts))),
               clinical = ifelse(grepl("clinical=yes", parts), "yes", ifelse(grepl("clinical=no ", paste0(parts, " ")), "no", NA)))
  })))
  # an event of which only the day is not known: each kind once for a line, in no count and in every upper bound
  undated <- unique(do.call(rbind, c(list(data.frame(i = integer(), kind = character())), lapply(grep("@ *not known *(;|$)", d$events), function(i) {
    parts <- trimws(strsplit(d$events[i], ";")[[1]])
    data.frame(i = i, kind = trimws(sub("@.*", "", parts[grepl("@ *not known$", parts)])))
  }))))
  after <- ifelse(events$kind == "infection", 1, ifelse(events$kind == "thrombosis", 7, 0))
  # a line that came with the patient: what was before it was known here is in no numerator, as no day of then is counted
  events$elsewhere <- !is.na(known_from[events$i]) & events$on < known_from[events$i] & events$on >= placed[events$i]
  events$outside <- events$elsewhere | events$on < placed[events$i] | (!is.na(ended[events$i]) & events$on > ended[events$i] + after)
  # CDC/NHSN, Patient Safety Component Manual, ch. 4: day 3 or later, of a line that was itself in for so long
  events$eligible <- events$on - placed[events$i] + 1 >= 3 & (is.na(ended) | ended - placed + 1 >= 3)[events$i]
  num <- function(x) as.numeric(x)
  size <- num(d$size_fr); vein <- num(d$vein_diameter_mm); ratio <- size / 3 / vein; position <- num(d$position_percent) / 100
  lumens <- num(d$lumens); attempts <- num(d$attempts)
  dwell <- ifelse(removed, stay$to - stay$from, NA)
  possible <- is.na(ratio) | (ratio >= 0.05 & ratio <= 1.2)
  # size and lumens that cannot be together are neither of them known
  together <- is.na(size) | is.na(lumens) | size >= c(1, 1.9, 4, 5)[lumens]
  d$size_fr[!together] <- NA; d$lumens[!together] <- NA; size[!together] <- NA; lumens[!together] <- NA; ratio[!together] <- NA
  has_kind <- function(kind) seq_len(n_rows) %in% c(events$i[events$kind == kind], undated$i[undated$kind == kind])
  claim <- ifelse(removed & !is.na(d$end_reason) & d$end_reason == "infection" & !has_kind("infection"), "infection",
           ifelse(removed & !is.na(d$end_reason) & d$end_reason == "clot" & !has_kind("thrombosis"), "thrombosis", NA))
  mechanical <- c("blocked" = "occlusion", "tip moved" = "migration", "came out" = "dislodgement", "leak or break" = "leak or break")
  for (reason in names(mechanical)) claim[removed & !is.na(d$end_reason) & d$end_reason == reason & !has_kind(mechanical[[reason]])] <- mechanical[[reason]]
  word <- function(x, unit = "") ifelse(is.na(x), "not known", paste0(x, unit))
  strata <- list(
    ward = word(d$ward), size = word(d$size_fr, " Fr"), lumens = word(d$lumens),
    third = ifelse(is.na(position), "not known", ifelse(position < 1/3, "lower third", ifelse(position < 1/2, "lower half of the middle third", ifelse(position < 2/3, "preferred half", "upper third")))),
    "ratio band" = ifelse(is.na(ratio) | !possible, "not known", ifelse(ratio * 100 > 45, "over 45 %", ifelse(ratio * 100 > 100/3, "33.3 to 45 %", "up to 33.3 %"))),
    vein = word(d$vein), side = word(d$side), attempts = ifelse(!is.na(attempts) & attempts >= 3, "3 or more", word(d$attempts)))

  rates <- list(c("infection-surveillance", "infection", "surveillance"), c("infection-without-mucosal", "infection", "mucosal"), c("infection-clinical", "infection", "clinical"),
    c("infection-paired-culture", "infection", "paired"), c("thrombosis", "thrombosis", "any"), c("occlusion", "occlusion", "any"),
    c("migration", "migration", "any"), c("dislodgement", "dislodgement", "any"), c("leak-or-break", "leak or break", "any"),
    c("exit-site-infection", "exit site infection", "any"), c("any-complication", "any", "any"))
  shares <- list(
    list("unknown-end", "period", lost), list("handed-on", "period", d$end_kind == "handed on"),
    list("first-attempt", "placed", attempts == 1), list("single-lumen", "placed", lumens == 1),
    list("ratio-within", "placed", ifelse(possible, ratio * 100 <= 45, NA)),
    list("middle-third", "placed", position >= 1/3 & position < 2/3),
    list("tip-well-placed", "placed", ifelse(is.na(d$tip_place), NA, d$tip_place %in% c("lower third of the cava", "cavo-atrial junction"))),
    list("short-stay", "removed", dwell <= 5), list("low-filtration", "placed", num(d$egfr_ml_min_173) < 45),
    list("complete-vein-diameter", "placed", !is.na(vein)), list("complete-lot", "placed", !is.na(d$lot_key)),
    list("complete-tip", "placed", !is.na(d$tip_place)), list("complete-end-reason", "removed", !is.na(d$end_reason)),
    list("complete-attempts", "placed", !is.na(attempts)), list("overdue-care", "place", ifelse(is.na(d$overdue_care), NA, d$overdue_care != "none")),
    list("no-owner", "place", d$owned == "no"), list("overrides", "placed", ifelse(is.na(d$overrides), NA, d$overrides != "none")))
  provisional_from <- as_of - 14
  # what no row of the table ever names, or no infection ever answers: no rate, no limit and no direction is told of it
  answered <- function(flag) any(grepl(paste0("infection@[^;]*", flag, "=(yes|no)(;|$| )"), paste0(d$events, ";")))
  never <- sapply(rates, function(r) n_rows > 0 && (if (r[3] != "any") !answered(r[3]) else if (r[2] == "any") nrow(events) == 0 else !(r[2] %in% events$kind)))
  names(never) <- sapply(rates, `[`, 1)

  watched <- c("infection-clinical", "thrombosis", "occlusion")
  figures <- function(scope, from, to, m = rep(TRUE, n_rows), whole = TRUE, only = NULL) {
    wanted <- function(id) is.null(only) || id %in% only
    kept <- list()
    m <- m & ok & placed < to & (is.na(ended) | ended >= from - 400)
    extra <- if (whole) stopped else 0
    ex <- exact_in(stay, from, to, "stay"); lo <- exact_in(longest, from, to, "longest")
    ca <- calendar_in(placed, end_at, from, to); lc <- calendar_in(placed, longest_end, from, to)
    for (r in rates) {
      id <- r[1]; if (!wanted(id)) next
      by_date <- id %in% c("infection-surveillance", "infection-without-mucosal"); own <- if (by_date) ca else ex; long <- if (by_date) lc else lo
      days <- sum(own[m]); most <- days + max(0, sum(long[m & lost]) - sum(own[m & lost]))
      mine <- events[m[events$i] & !events$outside & (r[2] == "any" | events$kind == r[2]), ]
      verdict <- if (nrow(mine) == 0) logical() else ifelse(mine$kind != "infection", r[3] == "any",
        switch(r[3], surveillance = ifelse(mine$eligible, NA, FALSE), mucosal = ifelse(mine$eligible, NA, FALSE), paired = NA, clinical = ifelse(is.na(mine$clinical), NA, mine$clinical == "yes"),
               any = !(!is.na(mine$clinical) & mine$clinical == "no")))
      inside <- mine$on >= from & mine$on < to
      hit <- mine[inside & !is.na(verdict) & verdict, ]; x <- nrow(hit)
      may <- sum(inside & is.na(verdict)) + sum(m & !is.na(claim) & (r[2] == "any" | claim == r[2]) & ended >= from & ended < to, na.rm = TRUE) +
        sum(m[undated$i] & (r[2] == "any" | undated$kind == r[2]) & (undated$kind == "infection" | r[3] == "any") &
            placed[undated$i] < to & (is.na(ended) | ended >= from)[undated$i])
      hidden <- sum(m & lost & end_at < to & placed < to & !(seq_len(n_rows) %in% hit$i))
      possible_events <- may + hidden
      put(scope, id, "numerator", x); put(scope, id, "denominator", days)
      if (days > 0 && !never[[id]]) {
        put(scope, id, "value", 1000 * x / days); ci <- 1000 * count_limits(x) / days
        put(scope, id, "lower", ci[1]); put(scope, id, "upper", ci[2])
        if (possible_events > 0 || most > days) {
          put(scope, id, "least", 1000 * x / most); put(scope, id, "greatest", 1000 * (x + possible_events) / days)
          put(scope, id, "outer lower", 1000 * count_limits(x)[1] / most); put(scope, id, "outer upper", 1000 * count_limits(x + possible_events)[2] / days)
        }
      }
      used <- sum(own[m] > 0)
      put(scope, id, "used", used); put(scope, id, "given", used + sum(long[m & lost] > 0) - sum(own[m & lost] > 0) + extra)
      put(scope, id, "missing", possible_events); put(scope, id, "provisional", sum(hit$on >= provisional_from))
      # one line with more than a fifth of the days, one person with more than a fifth of two events or more
      if (!never[[id]] && (scope %in% c("month", "before") || (id %in% watched && grepl("^year", scope)))) {
        warn <- function(guard, parts, least) if (length(parts) > 0 && sum(parts) > 0 && max(parts) / sum(parts) > 0.2 && max(parts) > least) {
          put(paste("guard", scope), id, guard, "part", max(parts)); put(paste("guard", scope), id, guard, "whole", sum(parts)) }
        warn("daysOfOneLine", own[m], 0); warn("eventsOfOnePerson", as.numeric(table(d$patient_key[hit$i])), 1)
      }
      kept[[id]] <- c(x, days)
    }
    sets <- list(placed = m & placed >= from & placed < to, removed = m & removed & !is.na(ended) & ended >= from & ended < to,
      place = m & placed < to & (is.na(ended) | ended >= to) & !(lost & end_at < to), period = m & placed < to & (is.na(ended) | ended >= from))
    for (b in list(c("placed", "placed"), c("removed", "removed"), c("in-place", "place"))) if (wanted(b[1])) {
      on <- if (b[1] == "removed") ended else placed; s <- sets[[b[2]]]
      put(scope, b[1], "numerator", sum(s)); put(scope, b[1], "used", sum(s)); put(scope, b[1], "given", sum(s)); put(scope, b[1], "missing", 0)
      put(scope, b[1], "provisional", sum(s & on >= provisional_from))
    }
    # what a line is by its end, on the last day of the period: what came later was not so yet
    by_the_end <- list("unknown-end" = lost & end_at < to, "handed-on" = d$end_kind == "handed on" & ended < to)
    for (b in shares) if (wanted(b[[1]])) {
      id <- b[[1]]; s <- sets[[b[[2]]]]; v <- (if (is.null(by_the_end[[id]])) b[[3]] else by_the_end[[id]])[s]; on <- (if (b[[2]] == "removed") ended else placed)[s]
      all <- sum(s); used <- sum(!is.na(v)); x <- sum(v, na.rm = TRUE); unknown <- all - used
      put(scope, id, "numerator", x); put(scope, id, "denominator", used)
      if (used > 0) { ci <- share_limits(x, used); put(scope, id, "value", x / used); put(scope, id, "lower", ci[1]); put(scope, id, "upper", ci[2]) }
      if (all > 0 && unknown > 0) {
        put(scope, id, "least", x / all); put(scope, id, "greatest", (x + unknown) / all)
        put(scope, id, "outer lower", share_limits(x, all)[1]); put(scope, id, "outer upper", share_limits(x + unknown, all)[2])
      }
      put(scope, id, "used", used); put(scope, id, "given", all); put(scope, id, "missing", unknown)
      put(scope, id, "provisional", sum(!is.na(v) & v & on >= provisional_from))
      kept[[id]] <- c(x, all)
    }
    # a line table from a spreadsheet holds no referrals
    for (id in c("declined", "tried-not-placed")) if (wanted(id)) for (k in c("numerator", "denominator", "used", "given", "missing", "provisional")) put(scope, id, k, 0)
    for (b in c("line-days-exact", "line-days-calendar")) if (wanted(b)) {
      own <- if (b == "line-days-exact") ex else ca
      put(scope, b, "numerator", sum(own[m])); put(scope, b, "used", sum(own[m] > 0)); put(scope, b, "given", sum(own[m] > 0) + extra); put(scope, b, "missing", 0); put(scope, b, "provisional", 0)
    }
    if (wanted("idle-days")) {
      touched <- m & placed < to & end_at >= from; idle <- num(d$idle_days); know <- touched & !is.na(idle)
      # the last days of each stay, noon to noon as the days they are held against
      unused <- data.frame(from = pmax(stay$from, stay$to - idle), to = stay$to)[know, ]
      days <- sum(ex[know]); x <- sum(pmax(0, pmin(unused$to, to) - pmax(unused$from, from)))
      put(scope, "idle-days", "numerator", x); put(scope, "idle-days", "denominator", days); if (days > 0) put(scope, "idle-days", "value", x / days)
      put(scope, "idle-days", "used", sum(ex[know] > 0)); put(scope, "idle-days", "given", sum(touched) + extra); put(scope, "idle-days", "missing", sum(touched) - sum(know)); put(scope, "idle-days", "provisional", 0)
    }
    kept
  }

  now <- figures("month", month_from, month_to); past <- figures("before", before_from, month_from)
  year <- figures("year", year_from, month_to)
  for (r in rates) { id <- r[1]; a <- now[[id]]; b <- past[[id]]
    if (a[2] > 0 && b[2] > 0 && !never[[id]]) {
      ci <- if (a[1] + b[1] == 0) c(0, Inf) else as.numeric(poisson.test(c(a[1], b[1]), c(a[2], b[2]), conf.level = level)$conf.int)
      put("month", id, "direction", ifelse(ci[1] > 1, 1, ifelse(ci[2] < 1, -1, 0)))
    }
    if (id %in% watched && b[1] > 0 && b[2] > 0) {
      mean <- b[1] * (month_to - month_from) / 365.25; k <- 0
      while (ppois(k - 1, mean, lower.tail = FALSE) >= (1 - level) / 2) k <- k + 1
      put("enough", id, "expected", mean); put("enough", id, "events", k)
    }
  }
  split <- c(watched, "any-complication", "first-attempt", "short-stay")
  in_year <- ok & placed < month_to & (is.na(ended) | ended >= year_from - 400)
  wards <- list()
  for (by in names(strata)) for (value in unique(strata[[by]][in_year])) {
    own <- figures(paste("year", by, value), year_from, month_to, strata[[by]] == value, FALSE, split)
    if (by == "ward" && value != "not known") wards[[value]] <- own
  }
  # wards against each other: given all events a count is binomial by its share of the days; the limit is where the tail,
  # carried on between whole counts by the incomplete beta function, is as small as asked. Widened from ten judged wards on
  # with spread beyond its threshold (Spiegelhalter 2005: Pearson scores, a tenth winsorised, additive), as negative binomial
  for (id in watched) if (!never[[id]]) {
    x <- sapply(wards, function(w) w[[id]][1]); t <- sapply(wards, function(w) w[[id]][2])
    x <- x[t > 0]; t <- t[t > 0]; all <- sum(x)
    if (length(x) < 2 || all == 0) next
    E <- all * t / sum(t); judged <- E >= 1; tau2 <- 0; I <- sum(judged)
    if (I > 0) {
      z <- (x[judged] - E[judged]) / sqrt(E[judged]); cut <- floor(0.1 * I); sorted <- sort(z); w <- E[judged]
      phi <- mean(pmin(sorted[I - cut], pmax(sorted[cut + 1], z))^2)
      if (I >= 10 && phi > 1 + 2 * sqrt(2 / I)) tau2 <- max(0, (I * phi - (I - 1)) / (sum(w) - sum(w^2) / sum(w)))
    }
    outside <- 0
    for (ward in names(x)) {
      scope <- paste("funnel", ward); p <- t[[ward]] / sum(t); e <- E[[ward]]
      most <- if (tau2 > 0) Inf else all
      at_least <- function(k) if (tau2 > 0) pbeta(e * tau2 / (1 + e * tau2), k, 1 / tau2) else pbeta(p, k, all - k + 1)
      where_is <- function(chance) uniroot(function(k) log(at_least(k)) - log(chance), c(1e-9, min(all + 1 - 1e-9, 1e4 + 100 * e)), tol = 1e-13)$root
      where_wide <- function(chance) uniroot(function(k) log(at_least(k)) - log(chance), c(1e-9, 1000 * (e + 10)), tol = 1e-12)$root
      find <- if (tau2 > 0) where_wide else where_is
      put(scope, id, "events", x[[ward]]); put(scope, id, "expected", e); put(scope, id, "days", t[[ward]]); put(scope, id, "judged", as.numeric(e >= 1))
      for (tail in c(0.025, 0.001)) {
        upper <- if (most < Inf && at_least(all) > tail) NA else find(tail)
        lower <- if (1 - at_least(1) > tail) NA else find(1 - tail) - 1
        put(scope, id, "upper", tail, upper); put(scope, id, "lower", tail, lower)
        if (tail == 0.025 && e >= 1) {
          if (!is.na(upper)) outside <- outside + at_least(ceiling(upper))
          if (!is.na(lower)) outside <- outside + 1 - at_least(floor(lower) + 1)
          put(scope, id, "stands", if (!is.na(upper) && x[[ward]] >= upper) 1 else if (!is.na(lower) && x[[ward]] <= lower) -1 else 0)
        }
      }
    }
    put("funnel", id, "by chance", outside)
  }
  # the first year: no line before the twelve months, or no days on one side; counts so far and the way to twenty events
  first <- suppressWarnings(min(placed[!is.na(placed)])); until <- min(as_of + 1, month_to); begun <- placed[!is.na(placed) & placed < until]
  has_base <- first < year_from && sum(exact_in(stay, first, year_from, "stay")[ok]) > 0 && sum(exact_in(stay, year_from, month_to, "stay")[ok]) > 0
  if (!has_base && length(begun) > 0) {
    first <- min(begun); elapsed <- until - first; told <- watched[!never[watched]]
    own <- figures("beginning", first, until, only = told)
    lines <- sum(ok & placed >= first & placed < until); put("beginning", "lines", lines); put("beginning", "days", elapsed)
    E <- sapply(told, function(id) own[[id]][1] / elapsed * 365.25); alarms <- sum(E >= 3)
    edges <- first; while (months_on(as.numeric(as.Date(format(as.Date(tail(edges, 1), origin = "1970-01-01"), "%Y-%m-01"))), 1) < until)
      edges <- c(edges, months_on(as.numeric(as.Date(format(as.Date(tail(edges, 1), origin = "1970-01-01"), "%Y-%m-01"))), 1))
    ends <- c(edges[-1], until)
    for (k in tail(seq_along(edges), 12)) figures(paste("beginning", as.Date(edges[k], origin = "1970-01-01")), edges[k], ends[k], only = told)
    for (id in told) {
      x <- own[[id]][1]; missing <- 20 - x; p <- function(...) put("beginning", id, ...)
      if (x > 0) {
        mean <- x / elapsed * 365.25 / 12; k <- 0
        while (ppois(k - 1, mean, lower.tail = FALSE) >= (1 - level) / 2) k <- k + 1
        p("expected a month", mean); p("noticed", k)
        if (missing > 0) {
          ci <- count_limits(x)
          p("to go", missing * elapsed / x); p("soonest", missing * elapsed / ci[2]); p("latest", missing * elapsed / ci[1]); p("lines to go", missing * lines / x)
        }
        if (E[[id]] >= 3) { h <- decision_of(E[[id]] * 20 * alarms / 12); p("months to show", 12 * events_to(h, R) / (R * E[[id]])) }
      }
    }
  }
  put("lines", "used", sum(ok)); put("lines", "given", n_rows)
  put("list", "unknown ends", year[["unknown-end"]][1]); put("list", "short stays", year[["short-stay"]][1])
  put("list", "no owner", year[["no-owner"]][1]); put("list", "overdue", year[["overdue-care"]][1]); put("list", "low filtration", year[["low-filtration"]][1])
  # the two cases: gravest kind first, ends nobody knows last, shortest stay, earlier placing, key in order of its bytes
  grave <- c("infection", "thrombosis", "leak or break", "migration", "dislodgement", "occlusion", "exit site infection")
  counted <- events[!events$outside & ok[events$i] & events$on >= month_from & events$on < month_to & !(events$kind == "infection" & events$clinical %in% "no"), ]
  last_event <- tapply(events$on[!events$outside], factor(events$i[!events$outside], levels = seq_len(n_rows)), max)
  last_day <- ifelse(gone, end_at, pmax(end_at, last_event, na.rm = TRUE)); in_days <- last_day - placed
  raw <- read.csv(file, colClasses = "character", na.strings = character(), check.names = FALSE, encoding = "UTF-8")
  diagnosis <- ifelse(raw$diagnosis == "", "not asked", raw$diagnosis)
  alike_by <- paste(findInterval(num(d$age_years), c(1, 18, 40, 65, 80)), diagnosis, format(as.Date(placed, origin = "1970-01-01"), "%Y-%m"))
  tell_case <- function(name, i) {
    put("case", name, "row", i); put("case", name, "days", in_days[i])
    put("case", name, "alike", length(unique(d$patient_key[alike_by == alike_by[i]])))
  }
  if (nrow(counted) > 0) {
    rank <- tapply(match(counted$kind, grave), counted$i, min); i <- as.integer(names(rank))
    tell_case("worst", i[order(rank, lost[i], in_days[i], placed[i], d$line_key[i], method = "radix")][1])
  }
  fine <- which(ok & removed & d$end_reason %in% "treatment ended" & ended >= month_from & ended < month_to & !(seq_len(n_rows) %in% events$i))
  if (length(fine) > 0) tell_case("well", fine[order(-in_days[fine], placed[fine], d$line_key[fine], method = "radix")][1])
  # lots near their date with some left, and lots called back with who may still carry one
  lots_file <- sub("\\.csv$", "-lots.csv", file)
  if (file.exists(lots_file)) {
    lots <- read.csv(lots_file, colClasses = "character")
    of_lot <- function(key) !is.na(d$lot_key) & d$lot_key == key
    near <- 0
    for (k in seq_len(nrow(lots))) {
      key <- lots$lot_key[k]; left <- num(lots$received[k]) - num(lots$discarded[k]) - sum(of_lot(key)); days <- date(lots$expires_on[k]) - as_of
      if (left != 0 && days <= 30) { near <- near + 1; put("lot", key, "left", left); put("lot", key, "days left", days) }
      if (lots$recalled[k] == "yes") { put("lot", key, "still in", sum(of_lot(key) & d$end_kind == "in place"))
        put("lot", key, "end not known", sum(of_lot(key) & lost)); put("lot", key, "handed on", sum(of_lot(key) & d$end_kind == "handed on")) }
    }
    put("list", "lots near their date", near); put("list", "lots called back", sum(lots$recalled == "yes"))
    put("list", "no lot written", if (any(lots$recalled == "yes")) sum(is.na(d$lot_key) & (lost | d$end_kind == "in place")) else 0)
  }
  # the record's own rules
  issue <- function(code, rows) if (length(unique(rows)) > 0) put("issue", code, length(unique(rows)))
  issue("T1", which(!is.na(ended) & ended < placed)); issue("T2", which(placed > as_of | (!is.na(ended) & ended > as_of)))
  issue("T10", which(too_early)); 
  # T5: over a year, or over the service's own 99.9th centile by the inverse of the empirical distribution
  own <- sort(dwell[!is.na(dwell) & ended >= placed])
  usual <- if (length(own) == 0) Inf else quantile(own, 0.999, type = 1, names = FALSE)
  issue("T5", which(dwell > min(365, usual))); issue("T8", which(removed & is.na(d$end_reason)))
  early <- events$on < placed[events$i]
  issue("E1", events$i[early]); issue("E2", events$i[!early & !events$elsewhere & events$outside]); issue("E5", which(!is.na(claim))); issue("C1", which(!possible))
  issue("T9", contradicted); issue("C2", which(!together))
  # missing in more than a twentieth, or in other shares with an event: chi-square without correction, five expected in each
  eventful <- seq_len(n_rows) %in% events$i[!events$outside]; lacking <- integer()
  for (name in c("side", "vein", "size_fr", "lumens", "vein_diameter_mm", "position_percent", "attempts", "setting", "age_years", "diagnosis", "indication")) {
    gone_here <- is.na(d[[name]])[ok]; n <- sum(ok)
    if (sum(gone_here) == 0 || sum(gone_here) == n) next
    counts <- table(factor(gone_here, c(FALSE, TRUE)), factor(eventful[ok], c(FALSE, TRUE)))
    expected <- outer(rowSums(counts), colSums(counts)) / n
    apart <- all(expected >= 5) && chisq.test(counts, correct = FALSE)$p.value < 0.01
    if (mean(gone_here) > 0.05 || apart) lacking <- c(lacking, which(ok)[gone_here])
  }
  issue("C4", lacking)
  # replaced, and the nearest later line of the person more than a day off: dates alone, so half days do not arise
  unmet <- integer()
  for (i in which(removed & !is.na(d$end_reason) & d$end_reason == "replaced")) {
    later <- which(d$patient_key == d$patient_key[i] & placed > placed[i])
    if (length(later) == 0) next
    gap <- placed[later] - end_at[i]; near <- which.min(abs(gap))
    if (gap[near] > 1 || gap[near] * 24 < -6) unmet <- c(unmet, i, later[near])
  }
  issue("L3", unmet)
  place <- paste(d$patient_key, d$side, d$vein); known <- ok & !is.na(d$side) & !is.na(d$vein); twice <- integer()
  for (p in unique(place[known])) { i <- which(known & place == p); i <- i[order(placed[i])]
    for (k in seq_along(i)[-1]) if (end_at[i[k - 1]] > placed[i[k]]) twice <- c(twice, i[k - 1], i[k]) }
  issue("L1", twice)
}
for (file in args[-(1:2)]) { where <- sub("\\.csv$", "", basename(file)); one_table(file) }
cat("{\n", paste(out, collapse = ",\n"), "\n}\n", sep = "")
