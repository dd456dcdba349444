# One timed task of the statistics benchmark in R, in a process of its own.
# usage: Rscript task.R FOLDER TASK ROWS      FOLDER holds one file of doubles for each column
# Prints: seconds, processor seconds, peak resident kilobytes (Linux), then the answers to compare. Only the columns of the task are read.
suppressMessages(library(survival))
a <- commandArgs(TRUE); folder <- a[1]; task <- a[2]; n <- as.integer(a[3])
column <- function(name) readBin(file.path(folder, paste0(name, ".f64")), "double", n)
eight <- c("arm_left", "french", "lumens", "ratio", "weight", "age", "cancer", "icu")
rhs <- paste(eight, collapse = " + ")
times <- if (grepl("-day$", task)) "t_day" else "t_min"
covariates <- grepl("^(cox|poisson|fine-gray)", task)
groups <- grepl("^log-rank", task)
d <- as.data.frame(sapply(c(times, "state", if (covariates) eight, if (groups) "stratum"), column, simplify = FALSE))
names(d)[1] <- "t"
d$ev <- as.integer(d$state == 1); d$fs <- factor(d$state, 0:3)
if (covariates) x <- as.matrix(d[eight])
if (grepl("^(incidence-cmprsk|fine-gray)", task)) suppressMessages(library(cmprsk))
run <- switch(sub("-(day|minute)$", "", task),
  "kaplan-meier"     = function() survfit(Surv(t, ev) ~ 1, d),
  "log-rank"         = function() survdiff(Surv(t, ev) ~ stratum, d),
  "incidence"        = function() survfit(Surv(t, fs) ~ 1, d),
  "incidence-cmprsk" = function() cuminc(d$t, d$state, cencode = 0),
  "cox"              = function() coxph(as.formula(paste("Surv(t, ev) ~", rhs)), d, ties = "efron"),
  "poisson"          = function() glm(as.formula(paste("ev ~", rhs, "+ offset(log(t))")), poisson, d),
  "poisson-bare"     = function() glm.fit(cbind(1, x), d$ev, offset = log(d$t), family = poisson()),
  "fine-gray"        = function() crr(d$t, d$state, x, failcode = 1, cencode = 0))
invisible(gc())
spent <- system.time(r <- run())
answer <- if (inherits(r, "coxph")) c(coef(r), sqrt(diag(vcov(r)))) else
  if (inherits(r, "glm")) c(coef(r), sqrt(diag(vcov(r)))) else
  if (inherits(r, "crr")) c(r$coef, sqrt(diag(r$var))) else
  if (inherits(r, "survdiff")) r$chisq else
  if (inherits(r, "cuminc")) timepoints(r, 30)$est else
  if (inherits(r, "survfit")) { s <- summary(r, times = 30); if (is.null(s$pstate)) c(s$surv, s$std.err) else c(s$pstate[-1], s$std.err[-1]) } else
  r$coefficients
peak <- grep("VmHWM", readLines("/proc/self/status"), value = TRUE)
cat(spent[["elapsed"]], spent[["user.self"]] + spent[["sys.self"]], as.numeric(gsub("[^0-9]", "", peak)), formatC(answer, digits = 15, format = "g"), "\n")
