-- standing: one row a wall record, and whether it stands. A view: a second copy of the records is more than the memory of
-- a browser gives.
CREATE OR REPLACE VIEW standing AS
SELECT r.*, s.b IS NULL AS stands
FROM wall_record r
LEFT JOIN superseded s
  ON s.b = r.b AND s."file" = r."file" AND s."row" = r."row" AND s.wall_id IS NOT DISTINCT FROM r.wall_id;
