# Driven rain of three hourly records in R, for test/weather/. Needs R (4.2 was used) with jsonlite.
# Run from the repository's root:  Rscript test/reference/weather/reference.R
# Writes airfield.csv (an invented record with the dirt of airfield files) and reference.json beside this script.
#
# ten hours  the record that the method is written against
# newark     50 hours of Newark Airport, January 2013: NOAA / US National Weather Service (public domain), as published in
#            the R package nycflights13 (weather, CC0); newark.csv keeps five of its columns
# airfield   invented; its figures are computed from the clean values, before the dirt is put on

folder <- "test/reference/weather"
rad <- pi / 180
knots <- 1852 / 3600
mph <- 1609.344 / 3600

facing <- function(D, theta) pmax(0, cos((D - theta) * rad))

# r mm, v m/s, D degrees, t °C; NA is missing. Frozen hours count apart, hours of unknown direction only in U.
driven <- function(r, v, D, t) {
  frozen <- r > 0 & !is.na(r) & !is.na(t) & t <= 0
  use <- !is.na(r) & r > 0 & !is.na(v) & !frozen
  aimed <- use & !is.na(D)
  theta <- seq(0, 350, 10)
  list(
    hours = length(r),
    rain_mm = sum(r[!is.na(r) & !frozen]),
    frozen_hours = sum(frozen), frozen_mm = sum(r[frozen]),
    wet_without_speed = sum(!is.na(r) & r > 0 & !frozen & is.na(v)),
    directionless_hours = sum(use & is.na(D) & v > 0),
    directionless_share = sum((r * v)[use & is.na(D) & v > 0]) / sum((r * v)[use]),
    mean_wind = mean(v, na.rm = TRUE),
    wind_in_rain = sum((r * v)[use]) / sum(r[use]),
    theta = theta,
    kappa = sapply(theta, function(a) sum((r * v)[aimed] * facing(D[aimed], a)) / sum((r * v)[aimed])),
    airfield_sum_mm = sapply(theta, function(a) (2 / 9) * sum((v * r^(8 / 9))[aimed] * facing(D[aimed], a)))
  )
}

# --- ten hours ---
r <- c(0, .2, 1, 2.5, 4, .5, 0, 1.2, 3, .8)
v <- c(3, 4, 6, 8, 5, 2, 7, 3.5, 9, 0)
D <- c(180, 190, 200, 225, 240, 350, 10, 90, 180, 0)
theta <- c(0, 90, 180, 220, 270)
ten <- list(
  rain = r, speed = v, direction = D, theta = theta,
  wind_in_rain = weighted.mean(v, r),
  kappa = sapply(theta, function(a) weighted.mean(facing(D, a), r * v)),
  airfield_sum_mm = sapply(theta, function(a) sum((2 / 9) * v * r^(8 / 9) * facing(D, a))),
  wetting_l_m2 = sapply(theta, function(a) 0.2 * 0.35 * sum(r * v * facing(D, a))),
  plain_mean = mean(v[r > 0])
)

# --- roughness coefficient at 10 m, and at 16 m and below in category IV ---
roughness <- list(I = 0.17 * log(10 / 0.01), II = 0.19 * log(10 / 0.05), III = 0.22 * log(10 / 0.3), IV = 0.24 * log(16 / 1))

# --- Newark ---
raw <- read.csv(file.path(folder, "newark.csv"), check.names = FALSE)
newark <- driven(raw[[4]] * 25.4, raw[[3]] * mph, raw[[2]], (raw[[5]] - 32) / 1.8)

# --- an invented airfield: 10 December 2019 to 20 January 2020, at minute 53 ---
set.seed(15927)
start <- as.POSIXct("2019-12-10 00:53", tz = "UTC")
n <- 24 * 42
time <- start + 3600 * (seq_len(n) - 1)
inches <- ifelse(runif(n) < 0.25, round(rexp(n, 20), 2), 0)
kn <- ifelse(runif(n) < 0.06, 0, round(rgamma(n, 3, 0.35)))
degrees <- sample(seq(10, 360, 10), n, replace = TRUE, prob = exp(cos((seq(10, 360, 10) - 230) * rad)))
fahrenheit <- round(38 + 9 * sin(seq_len(n) / 60) + rnorm(n, 0, 3))
fahrenheit[100] <- 32 # exactly freezing, with rain
inches[100] <- 0.11
calm <- kn == 0
variable <- !calm & kn < 7 & runif(n) < 0.4
trace <- inches == 0 & runif(n) < 0.05
no_rain <- runif(n) < 0.02
no_wind <- runif(n) < 0.02
no_temperature <- runif(n) < 0.02
absent <- seq_len(n) %in% c(200:223, 500)

text <- function(x, missing, what = "M") ifelse(missing, what, x)
rows <- data.frame(
  valid = format(time, "%m/%d/%Y %H:%M"),
  drct = text(ifelse(calm, "000", ifelse(variable, "VRB", sprintf("%03d", degrees))), no_wind),
  sknt = text(kn, no_wind),
  p01i = text(ifelse(trace, "T", sprintf("%.2f", inches)), no_rain),
  tmpf = text(fahrenheit, no_temperature, "")
)
special <- rows[c(50, 300, 700), ] # reports between the routine ones: set aside
special$valid <- sub(":53", ":20", special$valid)
special$p01i <- "9.99"
twice <- rows[c(60, 61), ] # the same hours again
written <- rbind(rows[!absent, ][c(400:900, 1:399), ], rows[!absent, ][901:sum(!absent), ], special, twice)
write.csv(written, file.path(folder, "airfield.csv"), row.names = FALSE, quote = FALSE)

keep <- !absent
r <- ifelse(no_rain, NA, inches * 25.4)[keep]
v <- ifelse(no_wind, NA, kn * knots)[keep]
D <- ifelse(no_wind | variable | calm, NA, degrees)[keep]
t <- ifelse(no_temperature, NA, (fahrenheit - 32) / 1.8)[keep]
airfield <- c(driven(r, v, D, t), list(
  rows = nrow(written), set_aside = nrow(special) + nrow(twice), absent = sum(absent),
  without_rain = sum(is.na(r)), trace = sum((trace & !no_rain)[keep]), variable = sum((variable & !no_wind)[keep]),
  calm = sum((calm & !no_wind)[keep]),
  years = sum(!is.na(r) & format(time[keep], "%Y") == "2019") / 8760 + sum(!is.na(r) & format(time[keep], "%Y") == "2020") / 8784
))

jsonlite::write_json(
  list(source = "R 4.2 by test/reference/weather/reference.R", ten = ten, roughness = roughness, newark = newark, airfield = airfield),
  file.path(folder, "reference.json"), digits = 15, auto_unbox = TRUE)
