# Golden values of curves and tests. R 4.2.2, survival 3.5-3, cmprsk 2.2-11; data are the vendored files.
# Run in this folder: Rscript survival-golden.R > survival-golden.json
suppressMessages({library(survival); library(cmprsk)})
read <- function(name) read.csv(file.path("..", "..", "data", paste0(name, ".csv")))
num <- function(x) paste0("[", paste(ifelse(is.finite(x), formatC(x, digits = 16, format = "g"), "null"), collapse = ","), "]")
out <- list()
add <- function(name, value) out[[length(out) + 1]] <<- paste0("\"", name, "\": ", num(value))

# delayed entry, whole curve, log-log limits
ch <- subset(read("KMsurv_channing"), age > ageentry)
for (g in 1:2) {
  s <- summary(survfit(Surv(ageentry, age, death) ~ 1, subset(ch, gender == g), conf.type = "log-log"), censored = FALSE)
  add(paste0("channing", g, "Time"), s$time); add(paste0("channing", g, "AtRisk"), s$n.risk)
  add(paste0("channing", g, "Survival"), s$surv); add(paste0("channing", g, "Error"), s$std.err)
  add(paste0("channing", g, "Low"), s$lower); add(paste0("channing", g, "High"), s$upper)
}
add("channingLogRank", coxph(Surv(ageentry, age, death) ~ gender, ch, ties = "exact")$score)

# competing ends, whole curves with standard errors
m <- read("survival_mgus2")
m$t <- ifelse(m$pstat == 0, m$futime, m$ptime); m$e <- ifelse(m$pstat == 0, 2 * m$death, 1)
for (s in c("F", "M")) {
  fit <- survfit(Surv(t, factor(e, 0:2)) ~ 1, subset(m, sex == s))
  keep <- rowSums(fit$n.event[, 2:3]) > 0
  add(paste0("mgus", s, "Time"), fit$time[keep])
  for (k in 1:2) {
    add(paste0("mgus", s, "Incidence", k), fit$pstate[keep, k + 1])
    add(paste0("mgus", s, "Error", k), fit$std.err[keep, k + 1])
  }
}

# log-rank of four groups, with strata; Gray of three and four groups, with and without strata
v <- read("survival_veteran")
cell <- match(v$celltype, c("squamous", "smallcell", "adeno", "large"))
d <- survdiff(Surv(time, status) ~ cell, v); add("veteranObserved", d$obs); add("veteranExpected", d$exp); add("veteranChi", d$chisq)
add("veteranVariance", as.vector(d$var))
add("veteranStrataChi", survdiff(Surv(time, status) ~ cell + strata(trt), v)$chisq)
add("veteranPetoChi", survdiff(Surv(time, status) ~ cell, v, rho = 1)$chisq)
third <- cut(m$age, c(0, 60, 75, 200), labels = FALSE)
add("grayAge", cuminc(m$t, m$e, third)$Tests[, "stat"])
add("grayAgeStrata", cuminc(m$t, m$e, third, strata = m$sex)$Tests[, "stat"])
add("grayAgeRho", cuminc(m$t, m$e, third, rho = 1)$Tests[, "stat"])
me <- read("boot_melanoma"); four <- 2 * me$sex + me$ulcer
add("grayMelanoma", cuminc(me$time, ifelse(me$status == 2, 0, me$status), four)$Tests[, "stat"])
cat("{", paste(out, collapse = ",\n"), "}\n", sep = "")
