# Design-based estimates in R, for test/findings/survey.test.ts. Needs R (4.2 was used) with survey, sampling and jsonlite.
# Run from the repository's root:  Rscript test/reference/findings/survey.R
# Data: apistrat and apiclus1 (California schools, 2000) and election_pps (US counties, 2004) of the survey package.
suppressMessages({ library(survey); library(sampling) })
data(api); data(election)

of <- function(design, formula, data) {
  m <- svymean(formula, design, deff = TRUE)
  ci <- svyciprop(formula, design, method = "beta")
  list(share = unname(coef(m)), se = as.numeric(SE(m)), deff = as.numeric(deff(m)),
    low = unname(attr(ci, "ci")[1]), high = unname(attr(ci, "ci")[2]), df = degf(design))
}
ratio_of <- function(design, num, den) { r <- svyratio(num, den, design); list(share = unname(coef(r)), se = as.numeric(SE(r))) }

apistrat$y <- as.numeric(apistrat$awards == "Yes")
apistrat$a <- apistrat$enroll
apistrat$ya <- apistrat$y * apistrat$a
strat <- svydesign(id = ~1, strata = ~stype, fpc = ~fpc, data = apistrat)
apisrs$y <- as.numeric(apisrs$awards == "Yes"); apisrs$a <- apisrs$enroll; apisrs$ya <- apisrs$y * apisrs$a
srs <- svydesign(id = ~1, fpc = ~fpc, data = apisrs)

# A third of each stratum did not answer: the answers are taken as a smaller stratified sample.
answered <- apistrat[seq_len(nrow(apistrat)) %% 3 != 0, ]
answered_design <- svydesign(id = ~1, strata = ~stype, fpc = ~fpc, data = answered)

# One answer alone in stratum M.
lonely <- apistrat[apistrat$stype != "M" | cumsum(apistrat$stype == "M") == 1, ]
options(survey.lonely.psu = "adjust")
lonely_design <- svydesign(id = ~1, strata = ~stype, fpc = ~fpc, data = lonely)

apiclus1$y <- as.numeric(apiclus1$awards == "Yes")
clus <- svydesign(id = ~dnum, fpc = ~fpc, data = apiclus1)

# Replicates: the rows of apistrat taken in turn as four independent draws with their weights.
apistrat$rep <- rep(1:4, length.out = nrow(apistrat))
replicated <- svydesign(id = ~rep, weights = ~pw, data = apistrat)

pps <- election_pps
pps$y <- as.numeric(pps$Kerry > pps$Bush)
pps_design <- svydesign(id = ~1, fpc = ~p, data = pps, pps = "brewer")
u <- with(pps, { w <- 1 / p; share <- sum(w * y) / sum(w); (y - share) / sum(w) })

result <- list(
  source = paste("survey", packageVersion("survey"), "and sampling", packageVersion("sampling"), "by test/reference/findings/survey.R"),
  stratified = list(rows = apistrat[, c("stype", "y", "a", "fpc", "rep", "pw")],
    share = of(strat, ~y), area = ratio_of(strat, ~ya, ~a),
    api00 = list(mean = unname(coef(svymean(~api00, strat))), se = as.numeric(SE(svymean(~api00, strat))))),
  simple = list(rows = apisrs[, c("y", "a", "fpc")], share = of(srs, ~y), area = ratio_of(srs, ~ya, ~a)),
  answered = list(rows = answered[, c("stype", "y", "fpc")], share = of(answered_design, ~y)),
  lonely = list(rows = lonely[, c("stype", "y", "fpc")], share = of(lonely_design, ~y)),
  clustered = list(rows = apiclus1[, c("dnum", "y", "fpc")], share = of(clus, ~y)),
  replicated = list(share = of(replicated, ~y)),
  pps = list(rows = pps[, c("Bush", "p", "y")],
    total = sum(pps$Bush / pps$p), deville_se = sqrt(varest(Ys = pps$Bush, pik = pps$p)),
    share = unname(coef(svymean(~y, pps_design))), brewer_se = as.numeric(SE(svymean(~y, pps_design))),
    deville_share_se = sqrt(varest(Ys = u, pik = pps$p))))
jsonlite::write_json(result, "test/reference/findings/survey.json", digits = NA, auto_unbox = TRUE)
str(result, max.level = 2, give.attr = FALSE)
