-- rank_of: one row a scored building. Rank and ties use what is exported; a reported leak outranks any index.
CREATE OR REPLACE TABLE rank_of AS
SELECT
  b,
  row_number() OVER (
    ORDER BY leak DESC, index DESC NULLS LAST, index_high DESC NULLS LAST, index_weighted_area_m2 DESC NULLS LAST,
      building_id
  ) AS rank
FROM (
  SELECT t.b, t.leak, t.index, t.index_high, t.index_weighted_area_m2, s.building_id
  FROM tiered t
  JOIN site s USING (b)
  WHERE t.tier < 4
);
