# Three invented services for the second count of the pack: Rscript services.R writes small.csv (60 lines, a children's
# service, dates alone), middle.csv (600, minutes and dates side by side) and large.csv (2500, minutes on a clock west of
# Greenwich). Nobody in them is real. Every oddity that docs/reference/quality.md names is strewn in by hand.

columns <- c("row", "line_key", "patient_key", "placed_at", "known_from", "end_kind", "end_at", "end_reason", "side", "vein",
  "size_fr", "lumens", "vein_diameter_mm", "ratio_percent", "position_percent", "attempts", "inserter_key", "ward", "age_years",
  "indication", "tip_place", "lot_key", "egfr_ml_min_173", "overdue_care", "overrides", "idle_days", "owned", "events", "inside_cm",
  "weight_kg", "replaces_key", "time_known_to", "written_after", "referral_outcome", "instead")
reasons <- c("treatment ended", "infection suspected", "infection", "clot", "blocked", "tip moved", "came out", "leak or break", "patient's wish", "died")
places <- c("neck vein", "innominate vein", "upper or middle cava", "lower third of the cava", "cavo-atrial junction", "right atrium")
tasks <- c("antimicrobial", "chemotherapy", "parenteral nutrition", "other infusion", "blood sampling")
pick <- function(from, chance = NULL) sample(from, 1, prob = chance)
maybe <- function(chance) runif(1) < chance
or_absent <- function(value, chance = 0.06) if (maybe(chance)) pick(c("not known", "not asked", "not measured", "refused", "")) else as.character(value)

# A moment in one of two styles: a date, or minutes with the offset of the clock on that day.
write_moment <- function(at, style, offsets) { # at: minutes of local time since 1970
  day <- as.Date(at %/% 1440, origin = "1970-01-01")
  if (style == "day") return(format(day))
  summer <- day >= as.Date(paste0(format(day, "%Y"), "-03-30")) & day < as.Date(paste0(format(day, "%Y"), "-10-26"))
  sprintf("%sT%02d:%02d%s", format(day), (at %% 1440) %/% 60, at %% 60, offsets[1 + summer])
}

service <- function(name, seed, lines, wards, first, last, as_of, styles, offsets, children, referrals) {
  set.seed(seed, kind = "Mersenne-Twister", normal.kind = "Inversion", sample.kind = "Rejection")
  first <- as.integer(as.Date(first)); last <- as.integer(as.Date(last)); table_day <- as.integer(as.Date(as_of))
  key <- function(letter, k) sprintf("%s%s%04d", letter, substr(name, 1, 1), k)
  rows <- list(); free_from <- integer(0); previous <- list()
  people <- ceiling(lines * 0.7)
  for (k in seq_len(lines)) {
    r <- setNames(as.list(rep("", length(columns))), columns)
    r$row <- "line"; r$line_key <- key("L", k); person <- sample.int(people, 1); r$patient_key <- key("P", person)
    style <- pick(names(styles), styles)
    begin <- sample(first:last, 1) * 1440 + 420 + sample.int(780, 1)
    stay <- max(20, round(rgamma(1, 0.9, 0.9 / 22) * 1440))
    if (maybe(0.05)) stay <- sample.int(600, 1)
    # A second line of a person mostly begins after the first is out; one in four is a replacement of it on the day.
    before <- previous[[as.character(person)]]
    if (!is.null(before)) {
      if (maybe(0.25) && before$kind == "removed" && before$end < last * 1440) {
        begin <- before$end + if (maybe(0.8)) sample.int(240, 1) else sample(c(-1440, -500, 2 * 1440, 6 * 1440), 1)
        r$replaces_key <- before$key
      } else if (!maybe(0.25) && before$end < (last - 2) * 1440 && begin < before$end) begin <- before$end + sample.int(20 * 1440, 1)
    }
    begin <- min(begin, last * 1440 + 1200)
    end <- begin + stay
    kind <- pick(c("removed", "handed on", "unknown"), c(0.88, 0.07, 0.05))
    if (end %/% 1440 >= table_day) { kind <- "in place"; end <- table_day * 1440 - 1 }
    if (kind != "in place" && maybe(0.02) && begin %/% 1440 > last - 300) kind <- "in place"
    begin_style <- if (style == "mixed") pick(c("day", "minute")) else style
    end_style <- if (style == "mixed") setdiff(c("day", "minute"), begin_style) else style
    r$placed_at <- write_moment(begin, begin_style, offsets)
    known <- NA
    if (style != "mixed" && maybe(0.05) && end - begin > 3 * 1440) {
      known <- begin + sample.int(end - begin - 1440, 1); r$known_from <- write_moment(known, style, offsets)
    }
    r$end_kind <- kind
    if (kind %in% c("removed", "handed on")) r$end_at <- write_moment(end, end_style, offsets)
    if (kind == "unknown" && maybe(0.85)) { end <- begin + sample.int(end - begin, 1); r$end_at <- write_moment(end, end_style, offsets) }
    if (kind == "in place" && maybe(0.5)) {
      seen <- if (end %/% 1440 >= table_day - 1) max(begin, (table_day - sample(c(1:20, 95), 1)) * 1440 + 600) else end
      r$end_at <- write_moment(max(seen, begin + 1), end_style, offsets)
    }
    r$side <- or_absent(pick(c("left arm", "right arm")), 0.02); r$vein <- or_absent(pick(c("basilic", "brachial", "cephalic"), c(0.6, 0.3, 0.1)), 0.03)
    age <- if (children || maybe(0.12)) sample(0:17, 1) else sample(18:95, 1)
    small <- age < 3
    size <- if (small) pick(c(1.9, 2, 2.6, 3)) else if (age < 18) pick(c(3, 4)) else pick(c(3, 4, 5, 6), c(0.1, 0.45, 0.35, 0.1))
    lumens <- if (size < 1.9) 1 else if (size < 4) pick(1:2, c(0.9, 0.1)) else if (size < 5) pick(1:2) else pick(1:3)
    if (maybe(0.01)) lumens <- 3
    vein <- round((size / 3) / runif(1, 0.22, 0.62), 1)
    r$size_fr <- or_absent(size); r$lumens <- or_absent(lumens, 0.03); r$vein_diameter_mm <- or_absent(vein, 0.15)
    ratio <- 100 * size / 3 / vein
    r$ratio_percent <- if (maybe(0.4)) as.character(round(ratio + if (maybe(0.15)) pick(c(-8, -4, -3, 3, 4, 8)) else 0, 1)) else ""
    r$position_percent <- or_absent(if (maybe(0.04)) pick(c(0, 50, 100)) else round(pmin(100, pmax(0, rnorm(1, 52, 17)))), 0.1)
    r$attempts <- or_absent(pick(1:5, c(0.72, 0.17, 0.07, 0.03, 0.01)), 0.05)
    r$inserter_key <- key("I", sample.int(5, 1)); r$ward <- or_absent(pick(wards, (length(wards):1)^1.3), 0.03); r$age_years <- or_absent(age, 0.02)
    r$indication <- or_absent(pick(tasks), 0.04); r$tip_place <- or_absent(pick(places, c(0.02, 0.03, 0.15, 0.4, 0.33, 0.07)), 0.08)
    r$lot_key <- or_absent(key("B", sample.int(ceiling(lines / 40), 1)), 0.1)
    r$egfr_ml_min_173 <- or_absent(if (maybe(0.05)) 45 else round(runif(1, 12, 120)), 0.3)
    r$overdue_care <- if (kind != "in place") "" else if (maybe(0.15)) "" else if (maybe(0.3)) "dressing; connector" else "none"
    r$overrides <- if (maybe(0.1)) "" else if (maybe(0.08)) pick(c("tip", "ratio; vein")) else "none"
    r$owned <- if (kind != "in place") "" else pick(c("yes", "no", "not known"), c(0.75, 0.15, 0.1))
    days <- (end - begin) %/% 1440
    r$idle_days <- if (maybe(0.4)) "" else as.character(min(days, pick(c(0, 0, 1, 2, 5, 9))))
    r$inside_cm <- or_absent(if (small) round(runif(1, 8, 22), 1) else round(runif(1, 28, 50), 1), 0.2)
    if (children || maybe(0.3)) {
      mid <- if (age < 1) 5 else if (age < 5) 8 + 2 * age else if (age < 18) 3.3 * age else 74
      r$weight_kg <- as.character(round(mid * runif(1, 0.8, 1.3), 1))
    }
    # What happened, within the stay and sometimes beyond it.
    happened <- character(0); kinds <- character(0)
    for (what in names(hazards <- c(infection = 2.2, thrombosis = 1.6, occlusion = 5, migration = 1.2, dislodgement = 1.5, "leak or break" = if (children) 0 else 0.5, "exit site infection" = 1.1))) {
      times <- rpois(1, hazards[[what]] * (end - begin) / 1440 / 1000)
      if (times) for (t in seq_len(min(times, 3))) {
        at <- begin + round(runif(1) * (end - begin))
        if (maybe(0.06)) at <- end + sample(c(600, 1440, 2 * 1440, 5 * 1440, 7 * 1440, 8 * 1440, 12 * 1440), 1)
        if (maybe(0.02)) at <- begin - sample(c(1440, 3 * 1440), 1)
        at <- min(at, table_day * 1440 - 1)
        text <- paste0(what, "@", write_moment(at, if (style == "mixed") pick(c("day", "minute")) else style, offsets))
        if (what == "infection") {
          answers <- c("yes", "no", "not known", "")
          for (flag in c("clinical", "surveillance", "paired")) { a <- pick(answers, c(0.6, 0.2, 0.1, 0.1)); if (a != "") text <- paste0(text, " ", flag, "=", a) }
          if (maybe(0.3)) { # once more, within the frame or beyond it
            again <- min(at + sample(c(5, 12, 13, 14, 15, 20), 1) * 1440, end, table_day * 1440 - 1)
            text <- paste0(text, "; infection@", write_moment(again, if (style == "mixed") "day" else style, offsets), " clinical=yes surveillance=yes")
          }
        }
        if (what == "occlusion" && maybe(0.4)) text <- paste0(text, " cleared=", write_moment(min(at + sample.int(2000, 1), table_day * 1440 - 1), if (style == "mixed") "minute" else style, offsets))
        happened <- c(happened, text); kinds <- c(kinds, what)
      }
    }
    r$events <- if (length(happened)) paste(happened, collapse = "; ") else if (maybe(0.05)) "" else "none"
    if (kind == "removed") r$end_reason <- or_absent(if ("occlusion" %in% kinds && maybe(0.5)) "blocked" else pick(reasons, c(60, 3, 5, 4, 6, 3, 5, 2, 4, 5)), 0.06)
    previous[[as.character(person)]] <- list(key = r$line_key, end = end, kind = kind)
    rows[[k]] <- r
  }
  edit <- function(k, ...) { for (f in names(change <- list(...))) rows[[k]][[f]] <<- change[[f]] }
  stamp <- function(text, minute) if ("minute" %in% names(styles)) paste0(text, "T", minute, offsets[1]) else text
  # Each oddity once or more, at fixed places.
  q <- lines / 60
  for (j in seq_len(ceiling(q / 6))) {
    s <- (j - 1) * 30
    edit(s + 1, placed_at = stamp("2025-12-10", "10:00"), known_from = "", end_kind = "removed", end_at = stamp("2025-12-04", "10:00"), end_reason = "treatment ended", events = "none", replaces_key = "") # out before in
    edit(s + 2, placed_at = stamp("2025-12-05", "09:00"), known_from = "", end_kind = "removed", end_at = stamp("2025-12-05", "09:00"), end_reason = "came out", events = "none", replaces_key = "") # at once
    edit(s + 3, patient_key = key("P", 9000 + j), placed_at = stamp("2025-11-20", "08:15"), known_from = "", end_kind = "removed", end_at = stamp("2025-12-02", "11:00"), end_reason = "died", events = "none", replaces_key = "")
    edit(s + 4, patient_key = key("P", 9000 + j), placed_at = stamp("2025-12-09", "08:15"), known_from = "", end_kind = "removed", end_at = stamp("2025-12-12", "11:00"), end_reason = "treatment ended", events = "none", replaces_key = "") # alive later
    edit(s + 5, time_known_to = "month"); edit(s + 6, written_after = "ratio_percent; attempts")
    edit(s + 7, size_fr = "6", vein_diameter_mm = "1.5", ratio_percent = "") # cannot be
    edit(s + 8, size_fr = "2.6", lumens = "3"); edit(s + 9, size_fr = "1.9", inside_cm = "52", lumens = "1"); edit(s + 10, age_years = "1", weight_kg = "61")
    # one infection at two lines of a person, and a replacement that meets
    edit(s + 11, patient_key = key("P", 9100 + j), placed_at = stamp("2025-11-25", "09:00"), known_from = "", end_kind = "removed", end_at = stamp("2025-12-20", "09:00"), end_reason = "infection", ward = wards[1], replaces_key = "",
      events = paste0("infection@", stamp("2025-12-15", "12:00"), " clinical=yes surveillance=yes paired=yes"))
    edit(s + 12, patient_key = key("P", 9100 + j), placed_at = stamp("2025-12-08", "09:00"), known_from = "", end_kind = "removed", end_at = stamp("2025-12-19", "09:00"), end_reason = "treatment ended", ward = wards[2], replaces_key = "",
      events = paste0("infection@", stamp("2025-12-15", "12:00"), " clinical=yes surveillance=yes"))
    edit(s + 13, patient_key = key("P", 9100 + j), placed_at = stamp("2025-12-20", "09:30"), known_from = "", end_kind = "removed", end_at = stamp("2025-12-30", "09:30"), end_reason = "treatment ended", replaces_key = rows[[s + 11]]$line_key,
      events = paste0("infection@", stamp("2025-12-28", "12:00"), " clinical=yes surveillance=yes; infection@", stamp("2025-12-29", "07:00"), " clinical=not known surveillance=yes"))
    # out on its second day, an infection on the third; out on the last day of November
    edit(s + 14, patient_key = key("P", 9200 + j), placed_at = stamp("2025-12-16", "09:00"), known_from = "", end_kind = "removed", end_at = stamp("2025-12-17", "09:00"), end_reason = "infection suspected", replaces_key = "",
      events = paste0("infection@", stamp("2025-12-18", "06:00"), " clinical=yes surveillance=yes"))
    edit(s + 15, patient_key = key("P", 9300 + j), placed_at = stamp("2025-11-01", "09:00"), known_from = "", end_kind = "removed", end_at = stamp("2025-11-30", "23:30"), end_reason = "clot", replaces_key = "", events = paste0("thrombosis@", stamp("2025-12-07", "06:00")))
    # known from before it was placed; known from a day in the month
    edit(s + 16, patient_key = key("P", 9400 + j), placed_at = stamp("2025-11-12", "09:00"), known_from = stamp("2025-11-10", "09:00"), end_kind = "removed", end_at = stamp("2025-12-12", "09:00"), end_reason = "treatment ended", events = "none", replaces_key = "")
    edit(s + 17, patient_key = key("P", 9500 + j), placed_at = stamp("2025-11-12", "09:00"), known_from = stamp("2025-12-10", "09:00"), end_kind = "removed", end_at = stamp("2025-12-14", "09:00"), end_reason = "treatment ended", replaces_key = "",
      events = paste0("occlusion@", stamp("2025-12-05", "06:00"), "; occlusion@", stamp("2025-12-11", "06:00")))
    # five days to the minute, and a minute more; handed on at the end and after it; an end nobody knows, an event after it was last seen
    edit(s + 18, patient_key = key("P", 9600 + j), placed_at = stamp("2025-12-03", "09:00"), known_from = "", end_kind = "removed", end_at = stamp("2025-12-08", "09:00"), end_reason = "treatment ended", events = "none", replaces_key = "")
    edit(s + 19, patient_key = key("P", 9700 + j), placed_at = stamp("2025-12-03", "09:00"), known_from = "", end_kind = "removed", end_at = stamp("2025-12-08", "09:01"), end_reason = "treatment ended", events = "none", replaces_key = "")
    edit(s + 20, patient_key = key("P", 9800 + j), placed_at = stamp("2025-12-21", "09:00"), known_from = "", end_kind = "handed on", end_at = stamp("2026-01-02", "09:00"), end_reason = "", events = "none", replaces_key = "")
    edit(s + 21, patient_key = key("P", 9900 + j), placed_at = stamp("2025-10-21", "09:00"), known_from = "", end_kind = "unknown", end_at = stamp("2025-11-20", "09:00"), end_reason = "", replaces_key = "", events = paste0("occlusion@", stamp("2025-12-03", "06:00")))
    edit(s + 22, patient_key = key("P", 8000 + j), end_kind = "removed", known_from = "", placed_at = stamp("2025-12-12", "22:30"), end_at = stamp("2026-01-01", "00:00"), end_reason = "not known", events = "none", replaces_key = "")
    # the line that came back: handed on, then known again
    edit(s + 23, patient_key = key("P", 8100 + j), placed_at = stamp("2025-11-03", "09:00"), known_from = "", end_kind = "handed on", end_at = stamp("2025-11-18", "09:00"), end_reason = "", events = "none", replaces_key = "")
    edit(s + 24, patient_key = key("P", 8100 + j), placed_at = stamp("2025-11-03", "09:00"), known_from = stamp("2025-12-06", "15:00"), end_kind = "removed", end_at = stamp("2025-12-18", "15:00"), end_reason = "treatment ended", events = "none", replaces_key = "")
    # known from a day after the month; two lines in one vein at once
    edit(s + 25, patient_key = key("P", 8200 + j), placed_at = stamp("2025-12-13", "09:00"), known_from = stamp("2026-01-02", "09:00"), end_kind = "in place", end_at = "", end_reason = "", events = "none", replaces_key = "", owned = "yes", overdue_care = "none")
    edit(s + 26, patient_key = key("P", 8300 + j), placed_at = stamp("2025-12-11", "09:00"), known_from = "", end_kind = "removed", end_at = stamp("2025-12-24", "09:00"), end_reason = "infection", side = "left arm", vein = "basilic", events = "none", replaces_key = "")
    edit(s + 27, patient_key = key("P", 8300 + j), placed_at = stamp("2025-12-22", "09:00"), known_from = "", end_kind = "removed", end_at = stamp("2025-12-27", "09:00"), end_reason = "clot", side = "left arm", vein = "basilic", events = "none", replaces_key = "")
    if ("minute" %in% names(styles)) edit(s + 28, patient_key = key("P", 8300 + j), placed_at = stamp("2025-12-22", "09:00"), known_from = "", end_kind = "removed", end_at = stamp("2025-12-27", "09:00"), end_reason = "clot", events = "none", replaces_key = "") # the same line twice
  }
  for (k in seq_len(referrals)) {
    r <- setNames(as.list(rep("", length(columns))), columns)
    r$row <- "referral"; r$line_key <- key("R", k); r$patient_key <- key("P", sample.int(people, 1))
    r$placed_at <- write_moment(sample(first:last, 1) * 1440 + 480 + sample.int(500, 1), pick(c("day", if ("minute" %in% names(styles)) "minute")), offsets)
    r$referral_outcome <- pick(c("placed", "declined", "waiting", "open", "tried, not placed"), c(0.7, 0.15, 0.04, 0.04, 0.07))
    if (r$referral_outcome == "declined") r$instead <- or_absent(pick(c("cannula", "midline", "oral medicine")), 0.1)
    rows[[lines + k]] <- r
  }
  made <- do.call(rbind, lapply(rows, function(r) as.data.frame(r, stringsAsFactors = FALSE)))
  quoted <- function(x) ifelse(grepl("[,\"]", x), paste0('"', gsub('"', '""', x), '"'), x)
  writeLines(c(paste(columns, collapse = ","), do.call(paste, c(lapply(made[columns], quoted), sep = ","))), paste0(name, ".csv"))
}

service("small", 17, 60, c("Robin", "Wren"), "2024-11-15", "2025-12-30", "2026-01-15", c(day = 1), c("+00:00", "+01:00"), TRUE, 25)
service("middle", 29, 600, c("Elm", "Fern", "Gorse", "Hazel", "Ivy"), "2024-10-01", "2025-12-31", "2026-01-05", c(minute = 0.6, day = 0.25, mixed = 0.15), c("+01:00", "+02:00"), FALSE, 200)
service("large", 43, 2500, c("Alder", "Beech", "Chestnut", "Dogwood", "Elder", "Fir", "Gean", "Holly", "Juniper", "Kapok", "Larch", "Maple"), "2024-07-01", "2025-12-31", "2026-01-15", c(minute = 1), c("-03:30", "-02:30"), FALSE, 900)
