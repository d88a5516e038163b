# Quantiles and tails in R, for test/findings/distributions.test.ts. Needs R (4.2 was used) with jsonlite.
# Run from the repository's root:  Rscript test/reference/findings/distributions.R

set.seed(7)
shapes <- expand.grid(a = c(.01, .5, 1, 2.5, 20, 300, 8000), b = c(.5, 1, 7.25, 60, 5000), x = c(1e-6, .03, .3, .5, .9, .999))
quantile_cases <- expand.grid(p = c(.005, .025, .1, .5, .95, .975), a = c(.4, 1, 3, 40.5, 900), b = c(.7, 2, 21, 450))
t_cases <- expand.grid(p = c(.0005, .025, .1, .5, .9, .975, .995), df = c(1, 2, 3.5, 7, 19, 59, 1e4, 1e7))
p <- c(1e-300, 1e-20, 1e-6, .001, .025, .1, .42, .5, .575, .8, .975, .999, 1 - 1e-9)
binomial_cases <- expand.grid(n = c(1, 20, 211, 5000), share = c(0, .1, .5, 1), p = c(.001, .2, .77))
binomial_cases$x <- round(binomial_cases$n * binomial_cases$share)
hyper_cases <- do.call(rbind, lapply(1:120, function(i) {
  size <- sample(c(5, 60, 200, 2000, 50000), 1)
  marked <- sample(0:size, 1); drawn <- sample(1:min(size, 400), 1)
  data.frame(size, marked, drawn, x = qhyper(runif(1), marked, size - marked, drawn))
}))
clopper <- expand.grid(n = c(1, 20, 45, 400), share = c(0, .15, .5, 1), level = c(.8, .95))
clopper$x <- round(clopper$n * clopper$share)
clopper <- cbind(clopper, t(mapply(function(x, n, l) binom.test(x, n, conf.level = l)$conf.int, clopper$x, clopper$n, clopper$level)))
names(clopper)[5:6] <- c("low", "high")
# Exact hypergeometric interval by trying every number of marked units.
exact <- function(size, n, x, q = 1, level = .95) {
  alpha <- 1 - level
  at_most <- function(x, D) sum(dhyper(0:n, D, size - D, n) * pbinom(x, 0:n, q))
  D <- x:size
  up <- D[sapply(D, function(d) at_most(x, d)) > alpha / 2]
  D <- 0:size
  low <- if (x == 0) 0 else D[sapply(D, function(d) 1 - at_most(x - 1, d)) > alpha / 2]
  data.frame(size, n, x, q, low = min(low) / size, high = max(up) / size)
}
intervals <- rbind(exact(60, 20, 0), exact(60, 20, 3), exact(200, 45, 0), exact(100, 45, 5), exact(60, 60, 7), exact(500, 30, 30),
  exact(60, 20, 0, .8), exact(60, 20, 3, .8), exact(200, 45, 0, .5), exact(100, 45, 5, .6))

jsonlite::write_json(
  list(
    source = paste("R", getRversion(), "by test/reference/findings/distributions.R"),
    beta = cbind(shapes, value = pbeta(shapes$x, shapes$a, shapes$b)),
    beta_quantile = cbind(quantile_cases, value = with(quantile_cases, qbeta(p, a, b))),
    t = cbind(t_cases, value = qt(t_cases$p, t_cases$df)),
    normal = data.frame(p, value = qnorm(p)),
    binomial = cbind(binomial_cases, value = with(binomial_cases, dbinom(x, n, p)), below = with(binomial_cases, pbinom(x, n, p))),
    hypergeometric = cbind(hyper_cases, value = with(hyper_cases, dhyper(x, marked, size - marked, drawn)),
      below = with(hyper_cases, phyper(x, marked, size - marked, drawn))),
    clopper_pearson = clopper,
    exact = intervals),
  "test/reference/findings/distributions.json", digits = NA, auto_unbox = TRUE)
