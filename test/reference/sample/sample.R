# Sizes for discovery and inclusion probabilities in R, for test/sample/. Needs R (4.2 was used) with sampling and jsonlite.
# Run from the repository's root:  Rscript test/reference/sample/sample.R

set.seed(5)
chance <- function(N, D, n, q) 1 - sum(dhyper(0:n, D, N - D, n) * (1 - q)^(0:n))
smallest <- function(N, share, confidence, q) {
  D <- ceiling(share * N - 1e-9)
  if (q == 1) ok <- which(phyper(0, D, N - D, 1:N) <= 1 - confidence + 1e-12)
  else ok <- which(sapply(1:N, function(n) chance(N, D, n, q)) >= confidence - 1e-12)
  if (length(ok) == 0) NA else min(ok)
}
cases <- rbind(
  expand.grid(N = c(1, 7, 60, 100, 200, 1000), share = c(.01, .05, .07, .2, 1), confidence = c(.8, .95), q = c(1, .8)),
  data.frame(N = c(500, 100, 3000, 3000), share = c(.02, .02, .03, .003), confidence = c(.9, .95, .99, .9), q = c(1, .7, .5, 1)))
cases$n <- mapply(smallest, cases$N, cases$share, cases$confidence, cases$q)

chances <- data.frame(N = sample(c(30, 500, 20000), 60, TRUE), q = sample(c(1, .95, .8, .4, .05), 60, TRUE))
chances$D <- sapply(chances$N, function(N) sample(0:N, 1))
chances$D[1:30] <- pmin(chances$D[1:30], 1:30)
chances$n <- sapply(chances$N, function(N) sample(1:min(N, 900), 1))
chances$chance <- mapply(chance, chances$N, chances$D, chances$n, chances$q)

sizes <- list(c(100, 10, 8, 6, 4, 2), c(5, 5, 5, 5), c(1000, 900, 3, 2, 1, 1, 1), round(rlnorm(40, 4, 1.5), 3), round(rexp(200)^3 * 50 + .01, 4))
takes <- c(3, 2, 4, 15, 60)
inclusion <- Map(function(x, n) list(sizes = x, n = n, chance = sampling::inclusionprobabilities(x, n)), sizes, takes)

# Joint chances of systematic selection in random order: the mean over all orders.
orders <- function(v) if (length(v) == 1) list(v) else do.call(c, lapply(seq_along(v), function(i) lapply(orders(v[-i]), function(r) c(v[i], r))))
pik <- sampling::inclusionprobabilities(c(12, 9, 7, 5, 4, 3), 3)
all <- orders(seq_along(pik))
joint <- Reduce(`+`, lapply(all, function(o) { m <- matrix(0, 6, 6); m[o, o] <- sampling::UPsystematicpi2(pik[o]); m })) / length(all)

jsonlite::write_json(
  list(source = paste("R", getRversion(), "sampling", packageVersion("sampling"), "by test/reference/sample/sample.R"),
    sizes = cases, chances = chances, inclusion = inclusion, systematic = list(sizes = c(12, 9, 7, 5, 4, 3), chance = pik, joint = joint)),
  "test/reference/sample/sample.json", digits = NA, auto_unbox = TRUE, na = "null")
