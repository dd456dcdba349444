# An invented table of lines that block, run again and come out; to be made once.
# usage: Rscript --vanilla line-states-made.R > line-states.csv
set.seed(41); n <- 400
stamp <- function(day) format(as.POSIXct("2025-01-01 00:00", tz = "UTC") + round(day * 1440) * 60, "%Y-%m-%dT%H:%MZ")
cat("line_key,patient_key,placed_at,end_kind,end_at,end_reason,events\n")
for (i in 1:n) {
  start <- runif(1, 0, 150); out <- rexp(1, 1 / 26); watched <- runif(1, 20, 140)
  stop <- min(out, watched); t <- 0; cells <- c()
  repeat {
    t <- t + rexp(1, 1 / 45); if (t >= stop) break
    clear <- t + rexp(1, 1 / 2.5)
    cells <- c(cells, paste0("occlusion@", stamp(start + t), if (clear < stop) paste0(" cleared=", stamp(start + clear)) else ""))
    if (clear >= stop) break
    t <- clear
  }
  cat(sprintf("L%d,P%d,%s,%s,%s,%s,%s\n", i, i, stamp(start), if (out <= watched) "removed" else "in place", stamp(start + stop),
    if (out <= watched) "treatment ended" else "", if (length(cells) == 0) "none" else paste(cells, collapse = "; ")))
}
