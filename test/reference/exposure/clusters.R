# Great-circle distances between US cities, and the circles about a city that hold most people, for
# test/exposure/clusters.test.ts.
# Data: maps::us.cities (R package maps 3.4: name, population estimate of January 2006, latitude, longitude).
# Distances: geosphere (Hijmans), distHaversine on a sphere of 6371.0088 km and distGeo on the WGS 84 ellipsoid (Karney 2013).
# Greedy by definition: every sum, greatest first, ties by place, centres more than twice the radius apart, at most 20.
# Run from the repository's root:  Rscript test/reference/exposure/clusters.R

suppressMessages({ library(maps); library(geosphere); library(jsonlite) })
cities <- us.cities[, c("name", "long", "lat", "pop")]
n <- nrow(cities)
xy <- as.matrix(cities[, c("long", "lat")])
radius <- 6371008.8
D <- distm(xy, fun = function(a, b) distHaversine(a, b, r = radius)) / 1000

clusters <- lapply(c(10, 25, 50), function(r) {
  sums <- as.vector((round(D * 1e6) <= r * 1e6) %*% cities$pop)
  open <- rep(TRUE, n); centre <- integer(0)
  while (length(centre) < 20 && any(open)) {
    best <- which(open & sums == max(sums[open]))[1]
    centre <- c(centre, best)
    open <- open & D[, best] > 2 * r + 1e-6
  }
  list(radius_km = r, centre = centre - 1, population = sums[centre])
})

set.seed(4)
a <- sample(n, 150, replace = TRUE); b <- sample(n, 150, replace = TRUE); keep <- a != b
a <- a[keep]; b <- b[keep]
pairs <- data.frame(a = a - 1, b = b - 1,
  haversine_km = distHaversine(xy[a, ], xy[b, ], r = radius) / 1000, geodesic_km = distGeo(xy[a, ], xy[b, ]) / 1000)

write_json(list(source = paste("R", getRversion(), "geosphere", packageVersion("geosphere"), "maps", packageVersion("maps")),
  cities = cities, pairs = pairs, clusters = clusters), "test/reference/exposure/clusters.json", auto_unbox = TRUE, digits = 12)
