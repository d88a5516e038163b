-- load_of: w^α in millionths, w = wetting / (wetting + half-load), of a coefficient (L/m² per mm) under a rain (mm).
CREATE OR REPLACE MACRO load_of(l_m2_per_mm, rain_mm, half_load, alpha) AS
  round(pow(round(round(l_m2_per_mm * rain_mm, 5) / (round(l_m2_per_mm * rain_mm, 5) + half_load), 6), alpha) * 1e6);
