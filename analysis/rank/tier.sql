-- tier_of: position in the list of tiers (0 First look, 1 Next look, 2 Keep watch, 3 No flag, 4 Not scored).
-- A reported, unrepaired leak sets at least Next look.
CREATE OR REPLACE MACRO tier_of(x, leak, first_look, next_look, keep_watch) AS
  CASE
    WHEN x >= first_look THEN 0
    WHEN leak OR x >= next_look THEN 1
    WHEN x >= keep_watch THEN 2
    WHEN x IS NOT NULL THEN 3
    ELSE 4
  END;
