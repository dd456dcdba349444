# Golden values of concordance, shared frailty, log-F priors, marginal models of ordered events and states left and come
# back to. R 4.2.2, survival 3.5-3; data are the vendored files.
# Run in this folder: Rscript shared-golden.R > shared-golden.json
suppressMessages(library(survival))
read <- function(name) read.csv(file.path("..", "..", "data", paste0(name, ".csv")), stringsAsFactors = FALSE)
num <- function(x) paste0("[", paste(formatC(as.vector(x), digits = 16, format = "g"), collapse = ","), "]")
out <- list()
add <- function(name, value) out[[length(out) + 1]] <<- paste0("\"", name, "\": ", num(value))
tight <- coxph.control(eps = 1e-13, iter.max = 100, toler.chol = 1e-15)

# concordance, its error, and concordant, discordant and tied pairs
pairs <- function(name, fit) {
  x <- concordance(fit); n <- if (is.matrix(x$count)) colSums(x$count) else x$count
  add(paste0("concordance.", name), c(x$concordance, sqrt(x$var), n[1:3]))
}
g <- read("MASS_gehan"); h <- read("survival_heart"); v <- read("survival_veteran"); k <- read("survival_kidney"); b2 <- read("survival_bladder2")
pairs("gehan", coxph(Surv(time, cens) ~ I(treat == "control"), g))
pairs("heart", coxph(Surv(start, stop, event) ~ age + year + surgery + transplant, h))
pairs("heartCluster", coxph(Surv(start, stop, event) ~ age + year + surgery + transplant + cluster(id), h))
pairs("veteranStrata", coxph(Surv(time, status) ~ karno + age + strata(celltype), v))
pairs("kidneyCluster", coxph(Surv(time, status) ~ age + sex + cluster(id), k))
pairs("bladderStrata", coxph(Surv(start, stop, event) ~ rx + number + size + strata(enum) + cluster(id), b2))

# gamma frailty: R's own search for the variance stops early, so its fit at a given variance is climbed here to the end.
# With sparse = FALSE the whole information is inverted.
frail <- function(name, formula, data, ties = "efron") {
  fit <- function(theta) { th <<- theta; suppressWarnings(coxph(formula, data, ties = ties, control = tight)) }
  best <- optimize(function(theta) fit(theta)$history[[1]]$c.loglik, c(0.05, 1.5), maximum = TRUE, tol = 1e-9)$maximum
  f <- fit(best)
  keep <- which(!grepl("gamma", names(coef(f))))
  add(paste0("frailty.", name, ".variance"), best)
  add(paste0("frailty.", name, ".b"), coef(f)[keep]); add(paste0("frailty.", name, ".se"), sqrt(diag(f$var))[keep])
  add(paste0("frailty.", name, ".l"), f$history[[1]]$c.loglik)
}
th <- 0
frail("kidney", Surv(time, status) ~ age + sex + frailty(id, theta = th, sparse = FALSE), k)
frail("kidneyBreslow", Surv(time, status) ~ age + sex + frailty(id, theta = th, sparse = FALSE), k, "breslow")
frail("celltype", Surv(time, status) ~ karno + frailty(celltype, theta = th, sparse = FALSE), v)

# log-F(m, m): the prior as lines of weight m / 2, a stratum of their own in Cox
e <- read("brglm2_endometrial")
for (m in c(1, 2)) {
  x <- rbind(cbind(1, as.matrix(e[c("NV", "PI", "EH")])), c(0, 1, 0, 0), c(0, 1, 0, 0), c(0, 0, 1, 0), c(0, 0, 1, 0), c(0, 0, 0, 1), c(0, 0, 0, 1))
  f <- suppressWarnings(glm.fit(x, c(e$HG, rep(1:0, 3)), weights = c(rep(1, 79), rep(m / 2, 6)), family = binomial(), control = glm.control(epsilon = 1e-15, maxit = 100)))
  add(paste0("logF.endometrial", m, ".b"), f$coef); add(paste0("logF.endometrial", m, ".se"), sqrt(diag(chol2inv(f$qr$qr[1:4, 1:4]))))
  d <- data.frame(time = c(g$time, 1, 2, 1, 2), cens = c(g$cens, 1, 0, 1, 0), x = c(1 * (g$treat == "control"), 1, 0, 0, 1), s = c(rep(0, 42), 1, 1, 2, 2), w = c(rep(1, 42), rep(m / 2, 4)))
  f <- suppressWarnings(coxph(Surv(time, cens) ~ x + strata(s), d, weights = w, ties = "breslow", robust = FALSE, control = tight))
  add(paste0("logF.gehan", m, ".b"), coef(f)); add(paste0("logF.gehan", m, ".se"), sqrt(vcov(f)))
}

# Wei, Lin and Weissfeld: every order of event a stratum, one common effect of treatment or one for each
b <- read("survival_bladder"); b$enum <- factor(b$enum)
f <- coxph(Surv(stop, event) ~ rx + number + size + strata(enum) + cluster(id), b, control = tight)
add("wlw.common", c(coef(f)[1], sqrt(diag(f$var))[1]))
f <- coxph(Surv(stop, event) ~ rx:enum + number:enum + size:enum + strata(enum) + cluster(id), b, control = tight)
add("wlw.each", coef(f)[grepl("^rx", names(coef(f)))])

# ventilated and not, and out: the shares of a state space left and come back to, all starting without a ventilator
s <- read("etm_sir.cont"); s <- s[order(s$id, s$time), ]
s$start <- ave(s$time, s$id, FUN = function(t) c(0, t[-length(t)]))
p <- c(1, 0, 0); times <- sort(unique(s$time[s$to != "cens"])); seen <- NULL
for (u in times) {
  a <- diag(3); now <- s$time == u & s$to != "cens"
  for (r in 0:1) {
    n <- sum(s$from == r & s$start < u & s$time >= u)
    for (q in setdiff(0:2, r)) { x <- sum(now & s$from == r & s$to == q) / max(n, 1); a[r + 1, q + 1] <- x; a[r + 1, r + 1] <- a[r + 1, r + 1] - x }
  }
  p <- as.vector(p %*% a); if (u %in% c(10, 30, 60)) seen <- c(seen, p)
}
add("states.ventilation", seen)
cat("{", paste(out, collapse = ",\n"), "}\n", sep = "")
