# Golden values of Gray's test for every kind of end, on invented counts of lines and on ten and a hundred times as many.
# R 4.2.2, cmprsk 2.2-11. Run in this folder: Rscript gray-golden.R > gray-golden.json
suppressMessages(library(cmprsk))
counts <- read.csv("gray-counts.csv")
num <- function(x) paste0("[", paste(formatC(x, digits = 16, format = "g"), collapse = ","), "]")
test <- function(times, rho = 0) {
  d <- counts[rep(seq_len(nrow(counts)), counts$lines * times), ]
  num(cuminc(d$day, d$end, d$group, rho = rho)$Tests[c("1", "2", "3"), "stat"])
}
cat("{\"times1\": ", test(1), ",\n\"times1rho1\": ", test(1, 1), ",\n\"times10\": ", test(10), ",\n\"times100\": ", test(100), "}\n", sep = "")
