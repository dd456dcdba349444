# The monthly pack counted a second time, written from the documents alone: docs/reference/measure.md, quality.md,
# line-table.md, policy.md and docs/how-to/count-a-month.md, without sight of the program or of the other script here.
# Where the documents leave a choice, QUESTIONS.md beside this file says which was taken (marked Q1, Q2, ... below).
#
#   Rscript count.R TABLE.csv 2025-12 2026-01-15 [LOTS.csv]
#
# prints one flat JSON object: "numbers" by name and "words" by name. Base R only.

argument <- commandArgs(trailingOnly = TRUE)
table_file <- argument[1]; month <- argument[2]; as_of <- as.integer(as.Date(argument[3]))
lots_file <- if (length(argument) > 3) argument[4] else NA

# The rows of the policy that the pack rests on.
level <- 0.95; fewest <- 5; provisional_days <- 14; short_stay <- 5; ratio_edges <- c(100 / 3, 45) / 100
good_tip <- c("lower third of the cava", "cavo-atrial junction"); low_filtration <- 45; clot_days_after <- 7
lost_days <- 90; long_dwell <- 365; long_dwell_share <- 0.999; ratio_possible <- c(0.05, 1.2); ratio_agrees <- 0.05
funnel_least <- 1; monthly_from <- 30; expiry_days <- 30
least_size <- c(1, 1.9, 4, 5); small_catheter <- c(2, 50); weight_range <- c(0.3, 350)
weight_ages <- c(0, 1, 2, 5, 10, 15, 18)
weight_least <- c(0.3, 3, 5, 8, 12, 20, 25); weight_most <- c(15, 20, 30, 60, 120, 200, 350)
replaced_gap <- 1; replaced_overlap <- 6 / 24; frame <- 14

numbers <- list(); words <- list()
put <- function(name, value) if (length(value) == 1 && !is.na(value)) numbers[[name]] <<- as.numeric(value)
say <- function(name, value) words[[name]] <<- value

# ---- reading -------------------------------------------------------------------------------------------------------
absent_words <- c("", "not known", "not asked", "not measured", "refused")
raw <- read.csv(table_file, colClasses = "character", check.names = FALSE, na.strings = character(0), encoding = "UTF-8")
every_column <- c("row", "line_key", "patient_key", "placed_at", "known_from", "end_kind", "end_at", "end_reason", "side",
  "vein", "size_fr", "lumens", "vein_diameter_mm", "ratio_percent", "position_percent", "attempts", "ward", "age_years",
  "tip_place", "lot_key", "egfr_ml_min_173", "overdue_care", "overrides", "idle_days", "owned", "events", "inside_cm",
  "weight_kg", "replaces_key", "time_known_to", "written_after", "referral_outcome", "instead")
for (column in every_column) {
  if (is.null(raw[[column]])) raw[[column]] <- rep("", nrow(raw))
  raw[[column]] <- trimws(raw[[column]])
  raw[[column]][raw[[column]] %in% absent_words] <- NA
}
kind_of_row <- ifelse(is.na(raw$row), "line", raw$row)
line <- raw[kind_of_row == "line", ]
referral <- raw[kind_of_row == "referral", ]

# A moment: local day, minutes of UTC (absent for a date alone), offset in minutes.
moments <- function(text) {
  day <- as.integer(as.Date(substr(text, 1, 10)))
  timed <- !is.na(text) & nchar(text) > 10
  minute <- rep(NA_real_, length(text)); offset <- rep(NA_real_, length(text))
  for (i in which(timed)) {
    x <- text[i]
    clock <- as.numeric(substr(x, 12, 13)) * 60 + as.numeric(substr(x, 15, 16))
    tail <- sub("^.{16}(:[0-9.]+)?", "", x)
    shift <- if (tail == "Z") 0 else (if (substr(tail, 1, 1) == "-") -1 else 1) *
      (as.numeric(substr(tail, 2, 3)) * 60 + as.numeric(substr(tail, nchar(tail) - 1, nchar(tail))))
    minute[i] <- day[i] * 1440 + clock - shift; offset[i] <- shift
  }
  data.frame(day = day, minute = minute, offset = offset)
}
n <- nrow(line)
placed <- moments(line$placed_at); known <- moments(line$known_from); ended <- moments(line$end_at)
number <- function(x) suppressWarnings(as.numeric(x))
size <- number(line$size_fr); lumens <- number(line$lumens); vein_mm <- number(line$vein_diameter_mm)
ratio_written <- number(line$ratio_percent) / 100; position <- number(line$position_percent)
attempts <- number(line$attempts); age <- number(line$age_years); filtration <- number(line$egfr_ml_min_173)
idle <- number(line$idle_days); inside <- number(line$inside_cm); weight <- number(line$weight_kg)
end_kind <- ifelse(is.na(line$end_kind), "unknown", line$end_kind)                                              # Q1
a_list <- function(text) lapply(text, function(x) if (is.na(x)) NULL else if (x == "none") character(0) else
  trimws(strsplit(x, ";", fixed = TRUE)[[1]]))                                                                  # Q2

event <- do.call(rbind, c(list(data.frame(line = integer(0), kind = character(0), at = character(0),
  clinical = character(0), surveillance = character(0), paired = character(0), mucosal = character(0))), lapply(which(!is.na(line$events)), function(i) {
  parts <- a_list(line$events[i])[[1]]
  parts <- parts[parts != "" & !grepl("@ *not known$", parts)]
  if (length(parts) == 0) return(NULL)
  flag <- function(part, name) {
    found <- regmatches(part, regexpr(paste0(name, "=(yes|no|not known)"), part))
    if (length(found) == 0) NA else sub(".*=", "", found)
  }
  do.call(rbind, lapply(parts, function(part) data.frame(line = i, kind = trimws(sub("@.*$", "", part)),
    at = sub(" .*$", "", trimws(sub("^[^@]*@", "", part))), clinical = flag(part, "clinical"),
    surveillance = flag(part, "surveillance"), paired = flag(part, "paired"), mucosal = flag(part, "mucosal"))))
})))
undated <- unique(do.call(rbind, c(list(data.frame(line = integer(0), kind = character(0))),
  lapply(grep("@ *not known *(;|$)", line$events), function(i) {
  parts <- a_list(line$events[i])[[1]]
  data.frame(line = i, kind = trimws(sub("@.*$", "", parts[grepl("@ *not known$", parts)])))
}))))
for (name in c("clinical", "surveillance", "paired", "mucosal")) event[[name]][!event[[name]] %in% c("yes", "no")] <- NA
event$day <- if (nrow(event)) moments(event$at)$day else integer(0)
event_moment <- if (nrow(event)) moments(event$at) else moments(character(0))

# ---- the stay of each line, in minutes of UTC ----------------------------------------------------------------------
noon <- function(day, offset) day * 1440 + 720 - offset
stay <- function(a, b) { # two moments, one row each; gives begin and end
  if (!is.na(a$minute) && !is.na(b$minute)) { begin <- a$minute; end <- b$minute }
  else if (is.na(a$minute) && is.na(b$minute)) {
    begin <- noon(a$day, 0); end <- noon(b$day, 0)
    if (a$day == b$day) { begin <- begin - 360; end <- end + 360 }
  } else if (is.na(b$minute)) {
    begin <- a$minute; end <- noon(b$day, a$offset)
    if (a$day == b$day && end < begin) end <- (begin + (b$day + 1) * 1440 - a$offset) / 2
  } else {
    end <- b$minute; begin <- noon(a$day, b$offset)
    if (a$day == b$day && end < begin) begin <- (end + a$day * 1440 - b$offset) / 2
  }
  if (end >= begin && end - begin < 1) end <- begin + 1
  c(begin, end)
}
place_minute <- own_end <- first_minute <- last_minute <- rep(NA_real_, n)
first_day <- last_day <- rep(NA_integer_, n)
on_dates <- rep(FALSE, n) # measure.md: a line of dates alone stands on no clock and is cut at its dates
table_day <- data.frame(day = as_of, minute = NA_real_, offset = NA_real_)
for (i in seq_len(n)) {
  closing <- ended[i, ]
  if (is.na(closing$day)) {
    if (end_kind[i] == "in place") closing <- table_day
    else closing <- placed[i, ]                                                                                 # Q3
  }
  nothing_known <- is.na(ended$day[i]) && end_kind[i] != "in place"
  own <- if (nothing_known) { b <- if (is.na(placed$minute[i])) noon(placed$day[i], 0) else placed$minute[i]; c(b, b + 1) }
    else stay(placed[i, ], closing)
  place_minute[i] <- own[1]; own_end[i] <- own[2]
  first_minute[i] <- own[1]; last_minute[i] <- own[2]; first_day[i] <- placed$day[i]; last_day[i] <- closing$day
  if (!is.na(known$day[i])) {
    if (nothing_known) closing <- known[i, ]
    seen <- if (nothing_known) { b <- if (is.na(known$minute[i])) noon(known$day[i], 0) else known$minute[i]; c(b, b + 1) }
      else stay(known[i, ], closing)
    first_minute[i] <- seen[1]; last_minute[i] <- seen[2]; first_day[i] <- known$day[i]; last_day[i] <- closing$day
  }
  on_dates[i] <- is.na((if (is.na(known$day[i])) placed else known)$minute[i]) && is.na(closing$minute)
}

# The longest that an unknown end can have stayed: to the day of the table, and so from noon where a date stands alone.
far_begin <- first_minute; far_end <- last_minute; far_on_dates <- on_dates
for (i in which(end_kind == "unknown")) {
  longest_stay <- stay(if (is.na(known$day[i])) placed[i, ] else known[i, ], table_day)
  far_begin[i] <- longest_stay[1]; far_end[i] <- longest_stay[2]
  far_on_dates[i] <- is.na((if (is.na(known$day[i])) placed else known)$minute[i])
}

# ---- the rules of quality ------------------------------------------------------------------------------------------
before <- function(a, b) ifelse(!is.na(a$minute) & !is.na(b$minute), a$minute < b$minute, a$day < b$day)
patient <- line$patient_key
flagged <- list()
flag_lines <- function(code, which_lines) flagged[[code]] <<- unique(which_lines)
out <- end_kind %in% c("removed", "handed on")
event_of <- split(seq_len(nrow(event)), factor(event$line, levels = seq_len(n)))
flag_lines("T1", which(!is.na(ended$day) & (before(ended, placed) | (!is.na(known$day) & before(ended, known)))))
late <- function(m) !is.na(m$day) & m$day > as_of
flag_lines("T2", which(late(placed) | late(known) | (late(ended) & end_kind != "in place")))                  # Q4
flag_lines("T10", which(!is.na(known$day) & before(known, placed)))
dead <- line$end_reason %in% "died" & end_kind == "removed" & !is.na(ended$day)
t9 <- integer(0)
for (own in split(seq_len(n), patient)) if (any(dead[own])) {
  first <- own[dead[own]][which.min(ended$day[own[dead[own]]])]
  alive <- own[pmax(placed$day[own], last_day[own] - dead[own]) > ended$day[first]]
  if (length(alive)) t9 <- c(t9, first, alive)
}
flag_lines("T9", t9)
l2 <- integer(0)
timed_lines <- which(!is.na(placed$minute))
came_back <- function(left, again) end_kind[left] == "handed on" && !is.na(ended$day[left]) && !is.na(known$day[again]) &&
  !before(known[again, ], ended[left, ])
for (group in split(timed_lines, paste(patient, placed$minute)[timed_lines])) { # one line in two stays is lawful
  stays <- group[1]
  for (k in group[-1]) if (all(vapply(stays, function(j) came_back(j, k) || came_back(k, j), TRUE))) stays <- c(stays, k) else l2 <- c(l2, k)
}
l2 <- c(l2, which(duplicated(line$line_key)))
flag_lines("L2", l2)
stopped <- seq_len(n) %in% unlist(flagged)
month_only <- line$time_known_to %in% "month"
flag_lines("T7", which(month_only))
flag_lines("T4", which(out & !is.na(placed$minute) & !is.na(ended$minute) & abs(ended$minute - placed$minute) < 1))
whole_stays <- ifelse(end_kind == "removed", (own_end - place_minute) / 1440, NA)
ranked <- sort(whole_stays)
flag_lines("T5", which(whole_stays > long_dwell | whole_stays > ranked[ceiling(long_dwell_share * length(ranked) - 1e-9)]))   # Q6
flag_lines("T6", which(end_kind == "in place" & !is.na(ended$day) & as_of - ended$day > lost_days))             # Q7
flag_lines("T8", which(end_kind == "removed" & is.na(line$end_reason)))

days_after <- ifelse(event$kind == "infection", 1, ifelse(event$kind == "thrombosis", clot_days_after, 0))
e_line <- event$line
early <- event$day < placed$day[e_line]
too_late <- out[e_line] & !is.na(ended$day[e_line]) & event$day > ended$day[e_line] + days_after
elsewhere <- !early & !is.na(known$day[e_line]) & event$day < known$day[e_line]                               # Q23
too_late <- too_late & !early & !elsewhere
flag_lines("E1", e_line[early]); flag_lines("E2", e_line[too_late])
counts <- !early & !elsewhere & !too_late & !stopped[e_line]
has_kind <- function(kind) sapply(event_of, function(e) any(event$kind[e] == kind)) | seq_len(n) %in% undated$line[undated$kind == kind]
claims <- c(infection = "infection", clot = "thrombosis", blocked = "occlusion", "tip moved" = "migration", "came out" = "dislodgement",
  "leak or break" = "leak or break")
hidden <- ifelse(end_kind == "removed", claims[line$end_reason], NA)
for (kind in claims) hidden[hidden %in% kind & has_kind(kind)] <- NA
flag_lines("E5", which(!is.na(hidden)))                                                                         # Q8

# One infection at two lines: same patient, same day, kept at the line longest in place (Q9).
e6 <- integer(0)
infections <- which(counts & event$kind == "infection")
for (group in split(infections, paste(patient[e_line[infections]], event$day[infections]))) {
  at <- unique(e_line[group])
  if (length(at) > 1) {
    proved <- at %in% e_line[group[event$paired[group] %in% "yes"]]
    if (any(proved)) at_best <- at[proved] else at_best <- at
    keep <- at_best[which.min(placed$day[at_best])]
    e6 <- c(e6, at)
    counts[group[e_line[group] != keep]] <- FALSE
  }
}
flag_lines("E6", e6)

# The repeat frame of surveillance: greedy over each person's eligible infections, across lines and all time.
reached <- ifelse(out[e_line], last_day[e_line], pmax(last_day[e_line], event$day))
eligible <- counts & event$kind == "infection" & event$day - placed$day[e_line] >= 2 & reached - placed$day[e_line] >= 2 &
  !month_only[e_line]
kept <- rep(FALSE, nrow(event)); e4 <- integer(0)
yes <- which(eligible & event$surveillance %in% "yes")
flagged_infection <- !early & !elsewhere & !too_late & event$kind == "infection" & event$surveillance %in% "yes"
third_day <- event$day - placed$day[e_line] >= 2 & reached - placed$day[e_line] >= 2
flag_lines("E3", e_line[flagged_infection & !third_day])
for (person in split(yes, patient[e_line[yes]])) {
  last_kept <- -Inf
  for (e in person[order(event$day[person])]) if (event$day[e] - last_kept >= frame) { kept[e] <- TRUE; last_kept <- event$day[e] }
}
every <- which(flagged_infection & counts)
for (person in split(every, patient[e_line[every]])) {
  last_kept <- -Inf
  for (e in person[order(event$day[person])]) if (event$day[e] - last_kept >= frame) last_kept <- event$day[e] else e4 <- c(e4, e_line[e])
}
flag_lines("E4", e4)
would <- which(eligible & is.na(event$surveillance))
# the same of those without a mucosal injury: what both answers allow may count
would_whole <- which(eligible & !event$surveillance %in% "no" & !event$mucosal %in% "yes" & (is.na(event$surveillance) | is.na(event$mucosal)))
whole <- which(eligible & event$surveillance %in% "yes" & event$mucosal %in% "no"); kept_whole <- rep(FALSE, nrow(event))
for (person in split(whole, patient[e_line[whole]])) {
  last_kept <- -Inf
  for (e in person[order(event$day[person])]) if (event$day[e] - last_kept >= frame) { kept_whole[e] <- TRUE; last_kept <- event$day[e] }
}

l1 <- l3 <- integer(0)
in_vein <- which(!stopped & !month_only & !is.na(line$side) & !is.na(line$vein))
for (group in split(in_vein, paste(patient, line$side, line$vein)[in_vein])) if (length(group) > 1) {
  group <- group[order(placed$day[group])]
  one_line <- function(a, b) !is.na(placed$minute[a]) && !is.na(placed$minute[b]) && placed$minute[a] == placed$minute[b]
  for (k in seq_len(length(group) - 1)) if (!one_line(group[k], group[k + 1]) && last_day[group[k]] > placed$day[group[k + 1]]) l1 <- c(l1, group[k], group[k + 1])
}
flag_lines("L1", l1)
noon_or_minute <- function(m, i) if (is.na(m$minute[i])) noon(m$day[i], 0) else m$minute[i]
linked <- integer(0)
meets <- function(old, new) {
  if (!out[old]) return(FALSE)
  gap <- (noon_or_minute(placed, new) - noon_or_minute(ended, old)) / 1440
  gap <= replaced_gap && -gap <= replaced_overlap
}
for (i in which(!is.na(line$replaces_key))) {
  old <- match(line$replaces_key[i], line$line_key)
  if (is.na(old)) next
  linked <- c(linked, old)
  if (!meets(old, i)) l3 <- c(l3, i, old)
}
for (old in setdiff(which(end_kind == "removed" & line$end_reason %in% "replaced"), linked)) {
  since <- noon_or_minute(placed, old)
  own <- which(patient == patient[old]); own <- own[vapply(own, function(k) noon_or_minute(placed, k) > since, TRUE)]
  if (!length(own)) next
  gaps <- vapply(own, function(k) noon_or_minute(placed, k) - noon_or_minute(ended, old), 0)
  next_one <- own[which.min(abs(gaps))]
  if (!meets(old, next_one)) l3 <- c(l3, old, next_one)
}
flag_lines("L3", l3)

# C2: size with lumens, size with length, weight with age; the values that cannot be together are taken as not known (Q10).
size_held <- lumens_held <- inside_held <- weight_held <- age_held <- rep(FALSE, n)
cannot <- !is.na(size) & !is.na(lumens) & size < least_size[pmax(1, lumens)]
long <- !is.na(size) & !is.na(inside) & size <= small_catheter[1] & inside > small_catheter[2]
band <- findInterval(age, weight_ages)
heavy <- !is.na(weight) & (weight < weight_range[1] | weight > weight_range[2] |
  (!is.na(age) & (weight < weight_least[pmax(1, band)] | weight > weight_most[pmax(1, band)])))
heavy[is.na(heavy)] <- FALSE
flag_lines("C2", which(cannot | long | heavy))
geometric <- size / 3 / vein_mm
ratio <- ifelse(is.na(geometric), ratio_written, geometric)
c1 <- (!is.na(ratio) & (ratio < ratio_possible[1] | ratio > ratio_possible[2])) |
  (!is.na(ratio_written) & (ratio_written < ratio_possible[1] | ratio_written > ratio_possible[2])) |
  (!is.na(geometric) & !is.na(ratio_written) & abs(ratio_written - geometric) > ratio_agrees * geometric)                   # Q11
flag_lines("C1", which(c1))
flag_lines("C3", which(vapply(a_list(line$written_after), function(x) length(x) > 0, TRUE)))
size[cannot | long] <- NA; lumens[cannot] <- NA
ratio[c1 | cannot | long] <- NA

# ---- parts ---------------------------------------------------------------------------------------------------------
label <- function(x, text) ifelse(is.na(x), "not known", text)
third <- cut(position, c(-Inf, 100 / 3, 50, 200 / 3, Inf), labels = FALSE)
third <- ifelse(is.na(position), NA, ifelse(position < 100 / 3, "lower third", ifelse(position < 50,
  "lower half of the middle third", ifelse(position <= 200 / 3, "preferred half", "upper third"))))             # Q12
parts <- list(
  ward = label(line$ward, line$ward), size = label(size, paste(size, "Fr")), lumens = label(lumens, lumens),
  third = label(third, third), "ratio band" = label(ratio, ifelse(100 * ratio <= 100 / 3, "up to 33.3 %",
    ifelse(100 * ratio <= 45, "33.3 to 45 %", "over 45 %"))),
  vein = label(line$vein, line$vein), side = label(line$side, line$side),
  attempts = label(attempts, ifelse(attempts >= 3, "3 or more", attempts)))

# ---- periods -------------------------------------------------------------------------------------------------------
# measure.md: "the offset of the placing, first sight or end written nearest to it"
all_minutes <- c(placed$minute, known$minute, ended$minute); all_offsets <- c(placed$offset, known$offset, ended$offset)
midnight <- function(day) {
  if (all(is.na(all_minutes))) return(day * 1440)
  nearest <- which.min(abs(all_minutes + all_offsets - day * 1440))
  day * 1440 - all_offsets[nearest]
}
day_of <- function(text) as.integer(as.Date(text))
month_begin <- day_of(paste0(month, "-01"))
shift_month <- function(day, by) { d <- as.POSIXlt(as.Date(day, origin = "1970-01-01")); d$mon <- d$mon + by; as.integer(as.Date(d)) }
month_end <- shift_month(month_begin, 1)
period <- function(from, to) list(from = from, to = to, begin = midnight(from), end = midnight(to))
periods <- list(now = period(month_begin, month_end), before = period(shift_month(month_begin, -12), month_begin),
  year = period(shift_month(month_end, -12), month_end))                                                        # Q13

opens <- function(p, row, dates = on_dates) ifelse(dates[row], p$from * 1440, p$begin)
closes <- function(p, row, dates = on_dates) ifelse(dates[row], p$to * 1440, p$end)

provisional_from <- as_of - provisional_days                                                                    # Q14

garwood <- function(x, days) if (days > 0) c(if (x == 0) 0 else qchisq((1 - level) / 2, 2 * x) / 2,
  qchisq(1 - (1 - level) / 2, 2 * x + 2) / 2) / days * 1000 else c(NA, NA)
clopper <- function(x, m) if (m > 0) c(if (x == 0) 0 else qbeta((1 - level) / 2, x, m - x + 1),
  if (x == m) 1 else qbeta(1 - (1 - level) / 2, x + 1, m - x)) else c(NA, NA)
overlap <- function(a, b, c, d) pmax(0, pmin(b, d) - pmax(a, c))

kinds <- c(thrombosis = "thrombosis", occlusion = "occlusion", migration = "migration", dislodgement = "dislodgement",
  "leak-or-break" = "leak or break", "exit-site-infection" = "exit site infection")
rate_names <- c("infection-surveillance", "infection-without-mucosal", "infection-clinical", "infection-paired-culture", names(kinds), "any-complication")
infection <- event$kind == "infection"
in_any <- !infection | !(event$clinical %in% "no" & !event$surveillance %in% "yes")
chosen <- function(measure) switch(measure, "infection-surveillance" = kept, "infection-without-mucosal" = kept_whole, "infection-clinical" = infection & event$clinical %in% "yes",
  "infection-paired-culture" = infection & event$paired %in% "yes", "any-complication" = in_any, event$kind == kinds[[measure]])
never <- function(measure) switch(measure, "infection-without-mucosal" = !any(infection & !is.na(event$mucosal)), "infection-surveillance" = !any(infection & !is.na(event$surveillance)),
  "infection-clinical" = !any(infection & !is.na(event$clinical)), "infection-paired-culture" = !any(infection & !is.na(event$paired)),
  "any-complication" = nrow(event) == 0, !any(event$kind == kinds[[measure]]))                                   # Q15

countable <- !stopped & !month_only
figure_rate <- function(name, measure, p, these, record = TRUE) {
  row <- which(these & countable)
  calendar <- measure %in% c("infection-surveillance", "infection-without-mucosal")
  each <- function(begin, minute, day, dates = on_dates) if (calendar) pmax(0, pmin(day, p$to - 1) - pmax(first_day[row], p$from) + 1)
    else overlap(begin, minute, opens(p, row, dates), closes(p, row, dates)) / 1440
  with_day <- each(first_minute[row], last_minute[row], last_day[row])
  days <- sum(with_day)
  is_in <- counts & e_line %in% row & event$day >= p$from & event$day < p$to
  hit <- is_in & chosen(measure)
  x <- sum(hit)
  flagless <- switch(measure, "infection-surveillance" = sum(is_in[would]), "infection-without-mucosal" = sum(is_in[would_whole]), "infection-clinical" = sum(is_in & infection & is.na(event$clinical)),
    "infection-paired-culture" = sum(is_in & infection & is.na(event$paired)), 0)
  removed_here <- row[end_kind[row] == "removed" & last_minute[row] >= opens(p, row) & last_minute[row] < closes(p, row)]
  of_kind <- if (grepl("^infection", measure)) "infection" else if (measure == "any-complication") claims else kinds[[measure]]
  reasons <- sum(hidden[removed_here] %in% of_kind)
  unknown <- row[end_kind[row] == "unknown" & first_minute[row] < closes(p, row)]
  lost <- unknown[last_day[unknown] < p$to]
  silent <- sum(!lost %in% e_line[hit])
  dayless <- sum(undated$line %in% row & (measure == "any-complication" | undated$kind == (if (grepl("^infection", measure)) "infection" else c(kinds, "any-complication" = "")[[measure]])) &
    placed$day[undated$line] < p$to & !(out[undated$line] & ended$day[undated$line] < p$from))
  missing <- flagless + reasons + silent + dayless
  could <- each(first_minute[row], last_minute[row], last_day[row])
  far <- row %in% unknown
  could[far] <- each(far_begin[row], far_end[row], rep(as_of, length(row)), far_on_dates)[far]
  longest <- sum(could)
  result <- list(events = x, days = days)
  if (!record) return(result)
  at <- function(field) paste(name, field, sep = ".")
  put(at("numerator"), x); put(at("denominator"), days); put(at("missing"), missing)
  put(at("used"), sum(with_day > 0)); put(at("given"), sum(could > 0) + if (all(these)) sum(stopped) else 0); put(at("provisional"), sum(hit & event$day >= provisional_from))
  form <- if (never(measure)) "never written down" else if (days <= 0) "nothing to count over" else if (x == 0) "upper limit only"
    else if (x < fewest) "count only, interval first" else "estimate with interval"
  say(at("form"), form)
  if (days > 0 && !never(measure)) {
    limits <- garwood(x, days)
    put(at("value"), 1000 * x / days); put(at("lower"), limits[1]); put(at("upper"), limits[2])
    if (missing > 0 || longest > days + 1e-9) {
      put(at("bound.lower"), 1000 * x / longest); put(at("bound.upper"), 1000 * (x + missing) / days)
      put(at("outer.lower"), garwood(x, longest)[1]); put(at("outer.upper"), garwood(x + missing, days)[2])     # Q16
    }
  }
  invisible(result)
}
# A share: hits are TRUE, FALSE, or absent (not known).
figure_share <- function(name, hit, used, given, provisional, bounds = TRUE) {
  at <- function(field) paste(name, field, sep = ".")
  m <- sum(!is.na(hit)); x <- sum(hit, na.rm = TRUE); absent <- sum(is.na(hit)); used <- m; given <- length(hit)
  put(at("numerator"), x); put(at("denominator"), m); put(at("missing"), absent); put(at("used"), used); put(at("given"), given)
  put(at("provisional"), provisional)
  say(at("form"), if (m == 0) "nothing to count over" else if (x == 0) "upper limit only" else if (x < fewest)
    "count only, interval first" else "estimate with interval")
  if (m > 0) { put(at("value"), x / m); put(at("lower"), clopper(x, m)[1]); put(at("upper"), clopper(x, m)[2]) }
  if (absent > 0) {
    put(at("bound.lower"), x / (m + absent)); put(at("bound.upper"), (x + absent) / (m + absent))
    put(at("outer.lower"), clopper(x, m + absent)[1]); put(at("outer.upper"), clopper(x + absent, m + absent)[2])
  }
}
figure_count <- function(name, value, used, given, provisional) {
  put(paste0(name, ".numerator"), value); put(paste0(name, ".used"), used); put(paste0(name, ".given"), given)
  put(paste0(name, ".missing"), 0); put(paste0(name, ".provisional"), provisional); say(paste0(name, ".form"), "count")
}

member <- function(p, these) {
  ok <- these & !stopped; begin <- opens(p, seq_len(n)); end <- closes(p, seq_len(n))
  list(placed = which(ok & is.na(known$day) & place_minute >= begin & place_minute < end),
    removed = which(ok & end_kind == "removed" & !is.na(ended$day) & last_minute >= begin & last_minute < end),
    in_place = which(ok & first_minute < end & ((out & last_minute >= end) | end_kind == "in place" |
      (end_kind == "unknown" & last_day >= p$to))),
    inside = which(ok & first_minute < end & !(out & last_minute < begin)))
}
late_placed <- placed$day >= provisional_from
late_removed <- !is.na(ended$day) & ended$day >= provisional_from
share_of_placed <- list("first-attempt" = attempts == 1, "single-lumen" = lumens == 1, "ratio-within" = ratio <= ratio_edges[2],
  "middle-third" = position >= 100 / 3 & position <= 200 / 3,
  "tip-well-placed" = ifelse(is.na(line$tip_place), NA, line$tip_place %in% good_tip), "low-filtration" = filtration < low_filtration,
  "complete-vein-diameter" = !is.na(vein_mm), "complete-lot" = !is.na(line$lot_key), "complete-tip" = !is.na(line$tip_place),
  "complete-attempts" = !is.na(attempts), overrides = vapply(a_list(line$overrides), function(x) if (is.null(x)) NA else length(x) > 0, TRUE))
in_days <- (own_end - place_minute) / 1440
quick <- ifelse(month_only, NA, in_days <= short_stay + 1e-9)
overdue <- vapply(a_list(line$overdue_care), function(x) if (is.null(x)) NA else length(x) > 0, TRUE)
no_owner <- ifelse(is.na(line$owned), NA, line$owned == "no")

one_share <- function(name, measure, p, these) {
  m <- member(p, these); at <- paste(name, measure, sep = ".")
  given <- sum(these); used <- sum(these & !stopped)
  if (measure %in% names(share_of_placed)) {
    hit <- share_of_placed[[measure]][m$placed]
    figure_share(at, hit, used, given, sum(late_placed[m$placed] & hit %in% TRUE))
  } else if (measure == "short-stay") {
    row <- m$removed
    figure_share(at, quick[row], used, given, sum(late_removed[row] & quick[row] %in% TRUE))
  } else if (measure == "complete-end-reason") {
    hit <- !is.na(line$end_reason[m$removed])
    figure_share(at, hit, used, given, sum(late_removed[m$removed] & hit))
  } else if (measure == "overdue-care") figure_share(at, overdue[m$in_place], used, given, sum(late_placed[m$in_place] & overdue[m$in_place] %in% TRUE))
  else if (measure == "no-owner") figure_share(at, no_owner[m$in_place], used, given, sum(late_placed[m$in_place] & no_owner[m$in_place] %in% TRUE))
  else if (measure == "unknown-end") {
    lost <- end_kind[m$inside] == "unknown" & last_day[m$inside] < p$to
    figure_share(at, lost, used, given, sum(late_placed[m$inside] & lost))
  }
  else if (measure == "handed-on") {
    away <- end_kind[m$inside] == "handed on" & ended$day[m$inside] < p$to
    figure_share(at, away, used, given, sum(late_placed[m$inside] & away))
  }
}

everyone <- rep(TRUE, n)
call_day <- moments(referral$placed_at)$day
outcome <- referral$referral_outcome
for (which_period in names(periods)) {
  p <- periods[[which_period]]; m <- member(p, everyone); used <- sum(!stopped)
  at <- function(measure) paste(which_period, measure, sep = ".")
  figure_count(at("placed"), length(m$placed), length(m$placed), length(m$placed), sum(late_placed[m$placed]))
  figure_count(at("removed"), length(m$removed), length(m$removed), length(m$removed), sum(late_removed[m$removed]))
  figure_count(at("in-place"), length(m$in_place), length(m$in_place), length(m$in_place), sum(late_placed[m$in_place]))
  row <- which(countable)
  exact <- overlap(first_minute[row], last_minute[row], opens(p, row), closes(p, row)) / 1440
  calendar <- pmax(0, pmin(last_day[row], p$to - 1) - pmax(first_day[row], p$from) + 1)
  figure_count(at("line-days-exact"), sum(exact), sum(exact > 0), sum(exact > 0) + sum(stopped), 0)
  figure_count(at("line-days-calendar"), sum(calendar), sum(calendar > 0), sum(calendar > 0) + sum(stopped), 0)
  for (measure in c("unknown-end", "handed-on", "first-attempt", "single-lumen", "ratio-within", "middle-third", "tip-well-placed",
    "short-stay", "low-filtration", "complete-vein-diameter", "complete-lot", "complete-tip", "complete-end-reason",
    "complete-attempts", "overdue-care", "no-owner", "overrides")) one_share(which_period, measure, p, everyone)
  for (measure in rate_names) figure_rate(at(measure), measure, p, everyone)
  called <- call_day >= p$from & call_day < p$to
  for (measure in c("declined", "tried-not-placed")) {
    wanted <- if (measure == "declined") "declined" else "tried, not placed"
    hit <- ifelse(outcome %in% c("placed", "declined", "tried, not placed"), outcome %in% wanted, NA)[called]
    figure_share(at(measure), hit, nrow(referral), nrow(referral), sum(call_day[called] >= provisional_from & hit %in% TRUE))
  }
  # Idle days: the last days of the stay on the clock of its line-days, cut where these are (Q18).
  known_idle <- row[!is.na(idle[row])]
  unused_from <- pmax(first_minute[known_idle], last_minute[known_idle] - idle[known_idle] * 1440)
  shared <- function(from) overlap(from, last_minute[known_idle], opens(p, known_idle), closes(p, known_idle))
  idle_days <- sum(shared(unused_from)) / 1440
  of_days <- sum(shared(first_minute[known_idle])) / 1440
  put(at("idle-days.numerator"), idle_days); put(at("idle-days.denominator"), of_days)
  if (of_days > 0) put(at("idle-days.value"), idle_days / of_days)
  touched <- first_day[row] < p$to & last_day[row] >= p$from
  put(at("idle-days.used"), sum(shared(first_minute[known_idle]) > 0))
  put(at("idle-days.given"), sum(touched) + sum(stopped)); put(at("idle-days.missing"), sum(touched & is.na(idle[row])))
  put(at("idle-days.provisional"), 0)
}

# ---- page 3: parts of the year, and wards among their limits --------------------------------------------------------
p <- periods$year
for (by in names(parts)) for (value in unique(parts[[by]][!stopped])) {
  these <- parts[[by]] == value
  name <- paste0("year|", by, "=", value)
  for (measure in c("infection-clinical", "thrombosis", "occlusion", "any-complication")) figure_rate(paste(name, measure, sep = "."), measure, p, these)
  for (measure in c("first-attempt", "short-stay")) one_share(name, measure, p, these)
}
# the limits of a ward are counted apart in ../pack.R; here who is among the wards, and what each expects
for (measure in c("infection-clinical", "thrombosis", "occlusion")) {
  wards <- setdiff(unique(parts$ward), "not known")
  own <- lapply(wards, function(ward) figure_rate("", measure, p, parts$ward == ward, record = FALSE))
  names(own) <- wards
  own <- Filter(function(one) one$days > 0, own)
  events <- sum(sapply(own, `[[`, "events")); days <- sum(sapply(own, `[[`, "days"))
  if (length(own) < 2 || events == 0) next
  for (ward in names(own)) {
    expected <- own[[ward]]$days * events / days
    at <- function(field) paste("funnel", measure, ward, field, sep = ".")
    put(at("events"), own[[ward]]$events); put(at("expected"), expected); put(at("lineDays"), own[[ward]]$days); put(at("judged"), as.numeric(expected >= funnel_least))
  }
}

# ---- page 1: higher, lower, cannot tell; enough to see a doubling ----------------------------------------------------
for (measure in rate_names) {
  a <- figure_rate("", measure, periods$now, everyone, record = FALSE); b <- figure_rate("", measure, periods$before, everyone, record = FALSE)
  say(paste("never", measure, sep = "."), if (never(measure)) "yes" else "no")
  if (!never(measure) && a$days > 0 && b$days > 0) {
    total <- a$events + b$events
    share <- if (total > 0) clopper(a$events, total) else c(0, 1)
    ratio_of <- share / (1 - share) * b$days / a$days
    say(paste("direction", measure, sep = "."), if (ratio_of[1] > 1) "higher" else if (ratio_of[2] < 1) "lower" else "cannot tell")
  }
  if (measure %in% c("infection-clinical", "thrombosis", "occlusion")) {
    expected <- b$events * (periods$now$to - periods$now$from) / 365.25                                         # Q19
    if (expected > 0) put(paste("enough", measure, "expected", sep = "."), expected)
    k <- 0; while (ppois(k - 1, expected, lower.tail = FALSE) >= (1 - level) / 2) k <- k + 1
    if (expected > 0) put(paste("enough", measure, "events", sep = "."), k)
  }
}
put("linesUsed", sum(!stopped)); put("linesGiven", n)
for (code in names(flagged)) if (length(flagged[[code]])) put(paste0("issue.", code), length(flagged[[code]]))   # Q20

# ---- page 4: lists --------------------------------------------------------------------------------------------------
p <- periods$year; m <- member(p, everyone)
put("list.noOwner", sum(no_owner[m$in_place], na.rm = TRUE)); put("list.overdue", sum(overdue[m$in_place], na.rm = TRUE))
put("list.overrides", length(unique(unlist(a_list(line$overrides)[m$placed]))))
put("list.unknownEnds", sum(end_kind[m$inside] == "unknown" & last_day[m$inside] < p$to))
put("list.lowFiltration", sum(share_of_placed$`low-filtration`[m$placed], na.rm = TRUE))
stays <- m$removed
put("list.shortStays", sum(quick[stays], na.rm = TRUE))                                                                       # Q21
gap <- function(name, value, rows) { put(paste0("gap.", name, ".notKnown"), sum(is.na(value[rows]))); put(paste0("gap.", name, ".given"), length(rows)) }
gap("noOwner", no_owner, m$in_place); gap("overdue", overdue, m$in_place); gap("overrides", share_of_placed$overrides, m$placed)
gap("lowFiltration", share_of_placed$`low-filtration`, m$placed); gap("shortStays", quick, stays)
declined_now <- outcome %in% "declined" & call_day >= month_begin & call_day < month_end
for (what in unique(referral$instead[declined_now])) put(paste0("instead.", if (is.na(what)) "not known" else what),
  sum(declined_now & referral$instead %in% what))
if (!is.na(lots_file)) {
  lot <- read.csv(lots_file, colClasses = "character"); expires <- day_of(lot$expires_on)
  left <- number(lot$received) - number(lot$discarded) - vapply(lot$lot_key, function(k) sum(line$lot_key %in% k), 0)
  near <- which(left != 0 & expires - as_of <= expiry_days)                                                      # Q22
  put("lots.expiring", length(near))
  for (i in near) { put(paste0("lot.", lot$lot_key[i], ".daysLeft"), expires[i] - as_of); put(paste0("lot.", lot$lot_key[i], ".left"), left[i]) }
  recalled <- lot$lot_key[lot$recalled == "yes"]
  put("lots.recalled", length(recalled))
  for (k in recalled) put(paste0("lot.", k, ".unknownEnds"), sum(line$lot_key %in% k & end_kind == "unknown"))
}

# ---- page 2: the base before the year, and the year month by month or quarter by quarter ------------------------------
# Written last, when the source was open; measure.md: "The base: from the first placing of the table to the year".
first_placing <- min(placed$day)
if (first_placing < periods$year$from) for (measure in c("infection-clinical", "thrombosis", "occlusion")) {
  at <- function(...) paste("time", measure, ..., sep = ".")
  base <- figure_rate("", measure, period(first_placing, periods$year$from), everyone, record = FALSE)
  whole <- figure_rate("", measure, periods$year, everyone, record = FALSE)
  limits <- garwood(base$events, base$days)
  put(at("base", "events"), base$events); put(at("base", "perThousand"), 1000 * base$events / base$days)
  put(at("base", "lower"), limits[1]); put(at("base", "upper"), limits[2])
  expected <- base$events / base$days * whole$days * 365.25 / (periods$year$to - periods$year$from)
  put(at("expectedPerYear"), expected)
  months <- if (expected >= monthly_from) 1 else 3
  for (k in seq_len(12 / months)) {
    from <- shift_month(periods$year$from, (k - 1) * months)
    own <- figure_rate("", measure, period(from, shift_month(from, months)), everyone, record = FALSE)
    put(at(paste0("span", k), "events"), own$events); put(at(paste0("span", k), "lineDays"), own$days)
  }
}

quoted <- function(x) paste0('"', gsub('"', '\\\\"', x), '"')
entry <- function(list, write) paste(vapply(names(list), function(k) paste0("  ", quoted(k), ": ", write(list[[k]])), ""), collapse = ",\n")
cat("{\n \"numbers\": {\n", entry(numbers, function(v) formatC(v, digits = 15, format = "g")), "\n },\n \"words\": {\n",
  entry(words, quoted), "\n }\n}\n", sep = "")
