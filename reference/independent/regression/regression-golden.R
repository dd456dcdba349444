# Golden values of regressions. R 4.2.2, survival 3.5-3, MASS 7.3-58.2, cmprsk 2.2-11; data are the vendored files.
# Run in this folder: Rscript regression-golden.R > regression-golden.json
suppressMessages({library(survival); library(MASS); library(cmprsk)})
read <- function(name) read.csv(file.path("..", "..", "data", paste0(name, ".csv")), stringsAsFactors = FALSE)
num <- function(x) paste0("[", paste(formatC(as.vector(x), digits = 16, format = "g"), collapse = ","), "]")
out <- list()
add <- function(name, value) out[[length(out) + 1]] <<- paste0("\"", name, "\": ", num(value))
tight <- coxph.control(eps = 1e-14, toler.chol = 1e-14, iter.max = 50)
cox <- function(name, fit) {
  add(paste0(name, ".b"), coef(fit)); add(paste0(name, ".se"), sqrt(diag(if (is.null(fit$naive.var)) fit$var else fit$naive.var)))
  if (!is.null(fit$naive.var)) add(paste0(name, ".robust"), sqrt(diag(fit$var)))
  add(paste0(name, ".l"), fit$loglik); add(paste0(name, ".score"), fit$score)
}
v <- read("survival_veteran"); v$small <- 1 * (v$celltype == "smallcell"); v$adeno <- 1 * (v$celltype == "adeno"); v$large <- 1 * (v$celltype == "large")
for (t in c("breslow", "efron")) {
  f <- coxph(Surv(time, status) ~ trt + small + adeno + large + karno + diagtime + age + prior, v, ties = t, control = tight)
  cox(paste0("veteran.", t), f)
  for (tr in c("km", "identity", "log")) add(paste0("veteran.", t, ".", tr), cox.zph(f, transform = tr)$table[, "chisq"])
}
z <- cox.zph(f, transform = "km"); add("veteran.schoenfeld", t(z$y)); add("veteran.schoenfeldTime", z$time)
f <- coxph(Surv(time, status) ~ karno + age + strata(celltype), v, control = tight); cox("veteran.strata", f)
add("veteran.strata.km", cox.zph(f)$table[, "chisq"])
b <- basehaz(f, centered = FALSE); f0 <- coxph(Surv(time, status) ~ karno + age, v, control = tight)
h <- basehaz(f0, centered = FALSE); keep <- c(TRUE, diff(h$hazard) > 0); add("veteran.hazardTime", h$time[keep]); add("veteran.hazard", h$hazard[keep])
h <- read("survival_heart")
for (t in c("breslow", "efron", "exact")) cox(paste0("heart.", t), coxph(Surv(start, stop, event) ~ age + year + surgery + transplant, h, ties = t, control = tight))
cox("heart.cluster", coxph(Surv(start, stop, event) ~ age + year + surgery + transplant + cluster(id), h, control = tight))
add("heart.km", cox.zph(coxph(Surv(start, stop, event) ~ age + year + surgery + transplant, h, control = tight))$table[, "chisq"])
d <- read("survival_bladder2")
for (t in c("breslow", "efron")) {
  cox(paste0("ag.", t), coxph(Surv(start, stop, event) ~ rx + number + size + cluster(id), d, ties = t, control = tight))
  cox(paste0("pwp.", t), coxph(Surv(start, stop, event) ~ rx + number + size + strata(enum) + cluster(id), d, ties = t, control = tight))
}
p <- subset(read("survival_pbc"), !is.na(protime))
cox("pbc", coxph(Surv(time, status == 2) ~ age + edema + log(bili) + log(albumin) + log(protime), p, control = tight))
k <- read("KMsurv_kidney")
for (t in c("breslow", "efron", "exact")) cox(paste0("site.", t), coxph(Surv(time, delta) ~ I(type == 2), k, ties = t, control = tight))
g <- function(name, fit) { add(paste0(name, ".b"), coef(fit)); add(paste0(name, ".se"), sqrt(diag(vcov(fit)))); add(paste0(name, ".l"), logLik(fit)); add(paste0(name, ".fit"), c(deviance(fit), sum(residuals(fit, "pearson")^2), df.residual(fit))) }
ct <- glm.control(epsilon = 1e-15, maxit = 100)
s <- subset(read("MASS_ships"), service > 0); s$year <- factor(s$year); s$period <- factor(s$period)
g("ships", glm(incidents ~ type + year + period + offset(log(service)), poisson, s, control = ct))
lk <- subset(read("survival_lung"), !is.na(ph.ecog)); lk$dead <- lk$status - 1
g("lung", glm(dead ~ age + sex + ph.ecog, binomial, lk, control = ct))
kd <- read("survival_kidney"); f <- glm(status ~ age + sex + offset(log(time)), poisson, kd, control = ct); g("kidney", f)
x <- model.matrix(f); u <- rowsum(x * (kd$status - fitted(f)), kd$id); i <- vcov(f); add("kidney.robust", sqrt(diag(i %*% crossprod(u) %*% i)))
q <- read("MASS_quine"); f <- glm.nb(Days ~ Eth + Sex + Age + Lrn, q, control = glm.control(epsilon = 1e-14, maxit = 200)); add("quine.b", coef(f)); add("quine.theta", f$theta); add("quine.l", logLik(f))
m <- read("survival_mgus2"); m$t <- ifelse(m$pstat == 0, m$futime, m$ptime); m$e <- ifelse(m$pstat == 0, 2 * m$death, 1); m <- m[!is.na(m$mspike), ]
for (c in 1:2) { f <- crr(m$t, m$e, cbind(m$age, m$sex == "M", m$mspike), failcode = c, gtol = 1e-13); add(paste0("fg.mgus", c, ".b"), f$coef); add(paste0("fg.mgus", c, ".se"), sqrt(diag(f$var))); add(paste0("fg.mgus", c, ".l"), c(f$loglik.null, f$loglik)) }
me <- read("boot_melanoma"); for (c in 1:2) { f <- crr(me$time, c(1, 0, 2)[me$status], cbind(me$sex, me$ulcer, log(me$thickness)), failcode = c, gtol = 1e-13); add(paste0("fg.melanoma", c, ".b"), f$coef); add(paste0("fg.melanoma", c, ".se"), sqrt(diag(f$var))); add(paste0("fg.melanoma", c, ".l"), c(f$loglik.null, f$loglik)) }
cat("{", paste(out, collapse = ",\n"), "}\n", sep = "")
