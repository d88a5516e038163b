# Writes data/stations/us-city-normals.csv: the 70 annual precipitation normals of R's `datasets::precip`, with positions.
# Run from the repository's root with R and node_modules installed:  Rscript data/stations/build.R
#
# Normals: inches a year, Statistical Abstract of the United States, 1975 ; R names no period. Positions:
# median of the different ZIP code positions of that city and state in vega-datasets zipcodes.csv (GeoNames, CC-BY-4.0).
# Positions that several cities share are left out where others remain: that list puts post box codes at the centre of
# their county (Honolulu's lies 1,000 km out in the ocean). The gauge often stands at an airport: up to 30 km away, Honolulu 40.

# The cities stand in the order of their states, so the states can be given as runs; San Juan is in Puerto Rico.
states <- c(
  "AL", "AK", "AZ", "AR", "CA", "CA", "CA", "CO", "CT", "DE", "DC", "FL", "FL", "GA", "HI", "ID", "IL", "IL", "IN",
  "IA", "KS", "KY", "LA", "ME", "MD", "MA", "MI", "MI", "MN", "MN", "MS", "MO", "MO", "MT", "NE", "NV", "NH", "NJ",
  "NM", "NY", "NY", "NY", "NC", "NC", "ND", "OH", "OH", "OH", "OK", "OR", "PA", "PA", "RI", "SC", "SD", "TN", "TN",
  "TX", "TX", "TX", "UT", "VT", "VA", "VA", "WA", "WA", "WV", "WI", "WY", "PR")

# Names as the ZIP code list spells them, where R spells or joins them otherwise.
renamed <- c(
  "Bismark" = "Bismarck", "Pittsburg" = "Pittsburgh", "St Louis" = "Saint Louis",
  "Sault Ste. Marie" = "Sault Sainte Marie", "Minneapolis/St Paul" = "Minneapolis", "Seattle Tacoma" = "Seattle")

zip <- read.csv("node_modules/vega-datasets/data/zipcodes.csv", colClasses = c("character", "numeric", "numeric",
  "character", "character", "character"))
city <- names(datasets::precip)
spelt <- ifelse(city %in% names(renamed), renamed[city], city)


where <- paste(zip$latitude, zip$longitude)
cities_there <- tapply(paste(zip$city, zip$state), where, function(name) length(unique(name)))
zip$shared <- cities_there[where] > 1

position <- t(mapply(function(name, state) {
  here <- zip[zip$city == name & zip$state == state, ]
  if (nrow(here) == 0) stop(name, ", ", state, " is not in zipcodes.csv")
  own <- if (all(here$shared)) here else here[!here$shared, ]
  places <- unique(own[c("latitude", "longitude")])
  c(median(places$latitude), median(places$longitude))
}, spelt, states))

table <- data.frame(
  city = paste0(spelt, ", ", states),
  normal_in = sprintf("%.1f", datasets::precip),
  latitude = sprintf("%.4f", position[, 1]),
  longitude = sprintf("%.4f", position[, 2]),
  period = "not stated; printed in 1975",
  source = "R datasets::precip (Statistical Abstract of the United States 1975); position: median of ZIP codes, GeoNames through vega-datasets, CC-BY-4.0, up to 40 km off")

con <- file("data/stations/us-city-normals.csv", "w")
write.csv(table, con, row.names = FALSE, quote = c(1, 5, 6))
close(con)
