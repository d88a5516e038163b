-- site_class: one row a building. What its walls inherit.
--   height_used_m  m      height on record, else storeys × storey height
--   height_class   0-6    row of exposure_factor; NULL where no height is on record
--   use_group      house, other, unknown: picks the priors of roof and height
--   code_irc, code_ibc    may the building stand under the residential or the general US code (NULL: cannot tell)
CREATE OR REPLACE TABLE site_class AS
WITH tall AS (
  SELECT b, use, storeys, coalesce(height_m, storeys * k.storey_height_m) AS height_used_m
  FROM building, k
)
SELECT
  tall.b,
  tall.height_used_m,
  e.height_class,
  CASE
    WHEN tall.use IS NULL THEN 'unknown'
    WHEN tall.use IN ('house', 'townhouse') THEN 'house'
    ELSE 'other'
  END AS use_group,
  tall.use = 'house' OR (tall.use = 'townhouse' AND tall.storeys <= 3) AS code_irc,
  tall.use NOT IN ('house', 'townhouse') OR (tall.use = 'townhouse' AND tall.storeys > 3) AS code_ibc
FROM tall
ASOF LEFT JOIN exposure_factor e ON tall.height_used_m >= e.from_m;
