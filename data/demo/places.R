# Writes data/demo/places.csv: neighbourhoods of the towns in data/demo/towns.csv around which the demo puts its buildings.
# Run from the repository's root with R and node_modules installed:  Rscript data/demo/places.R
#
# United States: up to eight ZIP codes within 15 km of the town, with their positions in vega-datasets zipcodes.csv
# (GeoNames, CC-BY-4.0); positions shared by several cities are post boxes at the centre of a county and left out.
# Canada: first halves of postal codes and rounded positions from memory; the second halves are invented.

canada <- read.csv(text = "
city,region,postal_code,latitude,longitude
Vancouver,BC,V5K,49.28,-123.04
Vancouver,BC,V5R,49.24,-123.04
Vancouver,BC,V5T,49.26,-123.09
Vancouver,BC,V6P,49.22,-123.12
Vancouver,BC,V5X,49.22,-123.10
Victoria,BC,V8P,48.47,-123.33
Victoria,BC,V8R,48.44,-123.33
Victoria,BC,V9A,48.45,-123.40
Victoria,BC,V8Z,48.47,-123.39
Kelowna,BC,V1Y,49.88,-119.48
Kelowna,BC,V1W,49.85,-119.46
Kelowna,BC,V1V,49.93,-119.45
Hamilton,ON,L8K,43.23,-79.80
Hamilton,ON,L8P,43.25,-79.89
Hamilton,ON,L9A,43.23,-79.87
Halifax,NS,B3H,44.64,-63.59
Halifax,NS,B3K,44.66,-63.61
Halifax,NS,B3M,44.67,-63.67
St. John's,NL,A1A,47.59,-52.71
St. John's,NL,A1B,47.57,-52.74
St. John's,NL,A1E,47.54,-52.75
Calgary,AB,T2E,51.08,-114.06
Calgary,AB,T2N,51.06,-114.11
Calgary,AB,T2J,50.95,-114.06
Calgary,AB,T3G,51.13,-114.18
")

km <- function(lon1, lat1, lon2, lat2) {
  r <- pi / 180
  a <- sin((lat2 - lat1) * r / 2)^2 + cos(lat1 * r) * cos(lat2 * r) * sin((lon2 - lon1) * r / 2)^2
  2 * 6371.0088 * asin(sqrt(a))
}

zip <- read.csv("node_modules/vega-datasets/data/zipcodes.csv", colClasses = c("character", "numeric", "numeric",
  "character", "character", "character"))
where <- paste(zip$latitude, zip$longitude)
shared <- tapply(paste(zip$city, zip$state), where, function(name) length(unique(name)))[where] > 1
towns <- read.csv("data/demo/towns.csv")

near <- function(town) {
  here <- zip[zip$city == town$city & zip$state == town$region & !shared, ]
  here <- here[!duplicated(paste(here$latitude, here$longitude)), ]
  here <- here[km(here$longitude, here$latitude, town$longitude, town$latitude) < 15, ]
  here <- here[unique(round(seq(1, nrow(here), length.out = min(8, nrow(here))))), ]
  data.frame(city = town$city, region = town$region, postal_code = here$zip_code,
    latitude = round(here$latitude, 4), longitude = round(here$longitude, 4),
    source = "GeoNames through vega-datasets zipcodes.csv, CC-BY-4.0")
}

us <- do.call(rbind, lapply(which(towns$country == "US"), function(i) near(towns[i, ])))
canada$source <- "from memory, rounded"
write.csv(rbind(us, canada), "data/demo/places.csv", row.names = FALSE, quote = c(1, 3, 6))
