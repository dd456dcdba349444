# Uno's concordance by R 4.2.2, survival 3.5-3: timewt = "n/G2", with and without an end, and by patient.
# Run in this folder: Rscript --vanilla uno-golden.R > uno-golden.json
suppressMessages(library(survival))
read <- function(name) read.csv(file.path("..", "..", "data", paste0(name, ".csv")), stringsAsFactors = FALSE)
tight <- coxph.control(eps = 1e-14, toler.chol = 1e-14, iter.max = 50)
row <- function(name, c) sprintf('"%s": [%s]', name, paste(formatC(c(c$concordance, sqrt(c$var)), digits = 15, format = "g"), collapse = ", "))
v <- read("survival_veteran"); f <- coxph(Surv(time, status) ~ karno + age, v, control = tight)
l <- subset(read("survival_lung"), !is.na(ph.ecog)); g <- coxph(Surv(time, status) ~ age + sex + ph.ecog, l, control = tight)
k <- read("survival_kidney"); k$lp <- predict(coxph(Surv(time, status) ~ age + sex, k, control = tight))
cat("{", paste(c(
  row("veteran", concordance(f, timewt = "n/G2")),
  row("veteran to 200 days", concordance(f, timewt = "n/G2", ymax = 200)),
  row("lung", concordance(g, timewt = "n/G2")),
  row("lung to a year", concordance(g, timewt = "n/G2", ymax = 365)),
  row("catheters by patient", concordance(Surv(time, status) ~ lp, k, timewt = "n/G2", cluster = k$id, reverse = TRUE))), collapse = ",\n"), "}\n", sep = "")
