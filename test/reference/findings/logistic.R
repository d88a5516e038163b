# Logistic regressions in R, for test/findings/logistic.test.ts. Needs R (4.2 was used) with MASS, glmnet and jsonlite.
# Run from the repository's root:  Rscript test/reference/findings/logistic.R
# Data: MASS::birthwt (Hosmer and Lemeshow, 1989).
suppressMessages({ library(MASS); library(glmnet) })
rows <- birthwt[, c("low", "age", "lwt", "smoke")]
plain <- glm(low ~ age + lwt + smoke, binomial, rows, control = glm.control(epsilon = 1e-14, maxit = 100))
x <- scale(as.matrix(rows[, -1]))
set.seed(3)
weight <- round(exp(rnorm(nrow(x))), 3)
weight <- weight / mean(weight)
ridge <- lapply(c(.5, 5, 60), function(penalty) {
  fit <- glmnet(x, rows$low, "binomial", weights = weight, alpha = 0, lambda = penalty / nrow(x), standardize = FALSE, thresh = 1e-22, maxit = 1e7)
  # Glmnet stops early where a little is gained; a quasi-Newton search finishes.
  X <- cbind(1, x)
  loss <- function(b) { e <- drop(X %*% b); sum(weight * (log1p(exp(e)) - rows$low * e)) + penalty / 2 * sum(b[-1]^2) }
  grad <- function(b) { p <- plogis(drop(X %*% b)); drop(t(X) %*% (weight * (p - rows$low))) + penalty * c(0, b[-1]) }
  b <- as.numeric(coef(fit))
  list(penalty = penalty, glmnet = b, optim = unname(optim(b, loss, grad, method = "BFGS", control = list(reltol = 1e-16, maxit = 1000))$par))
})
jsonlite::write_json(
  list(source = paste("R", getRversion(), "MASS", packageVersion("MASS"), "glmnet", packageVersion("glmnet"), "by test/reference/findings/logistic.R"),
    rows = rows, weight = weight, glm = unname(coef(plain)), log_likelihood = as.numeric(logLik(plain)), ridge = ridge),
  "test/reference/findings/logistic.json", digits = NA, auto_unbox = TRUE)
str(ridge)
