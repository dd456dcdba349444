# How long a sum that watches a Poisson rate runs to its signal, and the decision that gives a length asked for: by an integral
# equation, where the program has a closed form. Used by monitor.R and pack.R; R is the rise looked for.
R <- 2
# Mean events to a signal at true rate rho, watched at each event: L(s) = 1 + exp(-s/c) L(r) + integral of what is left of s
# when the next event comes, raised by r = ln R; nothing is added from h up.
events_to <- function(h, rho) {
  r <- log(R); cc <- (R - 1) / rho
  if (r >= h) return(1)
  one <- function(n) {
    d <- r / n; x <- sort(unique(c(r, h - (0:floor((h - r) / d)) * d))); x <- x[c(TRUE, diff(x) > 1e-9)]; m <- length(x)
    A <- matrix(0, m, m); at_r <- 1
    for (i in seq_len(m)) {
      z <- x[i] + r; a <- x[-m]; b <- x[-1]; w <- b - a; e <- pmin(b, z); use <- e > a
      E1 <- exp((e - z) / cc); E0 <- exp((a - z) / cc); I0 <- E1 - E0; I1 <- (e - cc) * E1 - (a - cc) * E0
      I0[!use] <- 0; I1[!use] <- 0
      A[i, -m] <- A[i, -m] + (b * I0 - I1) / w; A[i, -1] <- A[i, -1] + (I1 - a * I0) / w
      A[i, at_r] <- A[i, at_r] + exp(-x[i] / cc)
    }
    1 + solve(diag(m) - A, rep(1, m))[at_r]
  }
  a <- one(24); b <- one(48); b + (b - a) / 3
}
decision_for <- function(events) exp(uniroot(function(lh) log(events_to(exp(lh), 1)) - log(events), log(c(0.7, 16)), tol = 1e-9)$root)
known <- new.env()
decision_of <- function(events) { key <- format(events, digits = 15); if (is.null(known[[key]])) known[[key]] <- decision_for(events); known[[key]] }
