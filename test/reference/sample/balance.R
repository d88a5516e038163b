# Spatial balance of local pivotal and simple random samples of the meuse points, for test/sample/balance.test.ts.
# Written from Grafström, Lundström and Schelin (Biometrics 68, 2012) and Stevens and Olsen (JASA 99, 2004) in plain loops.
# Data: sp::meuse as in test/reference/stations/meuse.csv. Needs R (4.2 was used) with sampling and jsonlite.
# Run from the repository's root:  Rscript test/reference/sample/balance.R

set.seed(11)
meuse <- read.csv("test/reference/stations/meuse.csv")
D <- as.matrix(dist(cbind(meuse$x, meuse$y)))
N <- nrow(meuse)

lpm2 <- function(p) {
  eps <- 1e-9
  repeat {
    open <- which(p > eps & p < 1 - eps)
    if (length(open) < 2) break
    i <- sample(open, 1)
    others <- setdiff(open, i)
    near <- others[D[i, others] == min(D[i, others])]
    j <- if (length(near) == 1) near else sample(near, 1)
    s <- p[i] + p[j]
    if (s < 1) { if (runif(1) < p[j] / s) p[c(i, j)] <- c(0, s) else p[c(i, j)] <- c(s, 0) }
    else if (runif(1) < (1 - p[j]) / (2 - s)) p[c(i, j)] <- c(1, s - 1) else p[c(i, j)] <- c(s - 1, 1)
  }
  which(p > .5)
}
balance <- function(p, s) {
  v <- numeric(length(s))
  for (i in 1:N) { near <- which(D[i, s] == min(D[i, s])); v[near] <- v[near] + p[i] / length(near) }
  mean((v - 1)^2)
}
equal <- rep(20 / N, N)
bysize <- sampling::inclusionprobabilities(meuse$zinc, 20)
draws <- 1500
of <- function(p, draw) { b <- replicate(draws, balance(p, draw())); list(mean = mean(b), se = sd(b) / sqrt(draws)) }
fixed <- lapply(1:5, function(i) { s <- sort(sample(N, 20)); list(selected = s - 1, equal = balance(equal, s), bysize = balance(bysize, s)) })

jsonlite::write_json(
  list(source = paste("R", getRversion(), "by test/reference/sample/balance.R"), n = 20, draws = draws,
    lpm = of(equal, function() lpm2(equal)), lpm_by_size = of(bysize, function() lpm2(bysize)),
    simple = of(equal, function() sample(N, 20)), samples = fixed),
  "test/reference/sample/balance.json", digits = NA, auto_unbox = TRUE)
