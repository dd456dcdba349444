# States of the invented lines of line-states.csv, by survival's Aalen-Johansen; the cells of events are read here anew.
# usage: Rscript --vanilla line-states-golden.R > line-states-golden.json
suppressMessages(library(survival))
d <- read.csv("line-states.csv", stringsAsFactors = FALSE)
minute <- function(x) as.numeric(as.POSIXct(x, format = "%Y-%m-%dT%H:%MZ", tz = "UTC")) / 60
rows <- do.call(rbind, lapply(seq_len(nrow(d)), function(i) {
  start <- minute(d$placed_at[i]); end <- minute(d$end_at[i]) - start; at <- c(); to <- c()
  if (d$events[i] != "none") for (part in strsplit(d$events[i], "; ")[[1]]) {
    at <- c(at, minute(sub("occlusion@(\\S+).*", "\\1", part)) - start); to <- c(to, "blocked")
    if (grepl("cleared=", part)) { at <- c(at, minute(sub(".*cleared=", "", part)) - start); to <- c(to, "again") }
  }
  keep <- at < end; at <- at[keep]; to <- to[keep]
  data.frame(id = i, t1 = c(0, at), t2 = c(at, end), event = c(to, if (d$end_kind[i] == "removed") "out" else "censor"))
}))
rows <- rows[rows$t2 > rows$t1, ]
rows$event <- factor(rows$event, c("censor", "blocked", "again", "out"))
fit <- survfit(Surv(t1, t2, event) ~ 1, data = rows, id = id)
days <- c(3, 7, 14, 30, 60)
s <- summary(fit, times = days * 1440)$pstate # (s0), blocked, again, out
cat('{ "days": [', paste(days, collapse = ", "), '],\n  "shares": [', paste(formatC(t(s), digits = 12, format = "g", width = 1), collapse = ", "),
  '],\n  "blocks": [', sum(rows$event == "blocked"), '], "cleared": [', sum(rows$event == "again"), "] }\n", sep = "")
