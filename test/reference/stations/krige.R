# Writes meuse.csv (data), meuse-grid.csv (places) and krige.json (what R says), all beside this script.
# Debian 12: apt-get install r-cran-sp r-cran-gstat r-cran-jsonlite; then  Rscript test/reference/stations/krige.R
# Data: sp::meuse and sp::meuse.grid (Rikken and Van Rijn 1993; Burrough and McDonnell, Principles of GIS, 1998).
library(sp)
library(gstat)

here <- "test/reference/stations"
data(meuse)
data(meuse.grid)
rows <- c(1, 500, 1500, 3000)

write.csv(meuse[c("x", "y", "dist", "zinc")], file.path(here, "meuse.csv"), row.names = FALSE, quote = FALSE)
write.csv(meuse.grid[rows, c("x", "y", "dist")], file.path(here, "meuse-grid.csv"), row.names = FALSE, quote = FALSE)

coordinates(meuse) <- ~ x + y
coordinates(meuse.grid) <- ~ x + y
places <- meuse.grid[rows, ]
model <- vgm(0.15, "Exp", 300, 0.05)

result <- function(k) list(estimate = k$var1.pred, variance = k$var1.var)
krige_ <- function(formula, ...) result(krige(formula, meuse, places, model, debug.level = 0, ...))
left_out <- function(formula, ...) result(krige.cv(formula, meuse, model, verbose = FALSE, debug.level = 0, ...))
# Folds of unlike size: the data in cells of 500 m, left out cell by cell.
fold <- as.integer(factor(paste(floor(meuse$x / 500), floor(meuse$y / 500))))
drift <- log(zinc) ~ sqrt(dist)

jsonlite::write_json(
  list(
    source = paste("gstat", packageVersion("gstat"), "and sp", packageVersion("sp"), "by test/reference/stations/krige.R"),
    global = krige_(drift),
    nmax32 = krige_(drift, nmax = 32),
    ordinary = krige_(log(zinc) ~ 1),
    fold = fold,
    left_out_global = left_out(drift),
    left_out_nmax32 = left_out(drift, nmax = 32),
    left_out_folds = left_out(drift, nfold = fold),
    left_out_folds_nmax32 = left_out(drift, nfold = fold, nmax = 32)),
  file.path(here, "krige.json"), digits = NA, auto_unbox = TRUE)
