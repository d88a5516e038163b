-- site: one row a building. Its record, its rain, and the classes its walls inherit (site_class.sql). A view: a second copy of
-- a million records is more than the memory of a browser gives.
CREATE OR REPLACE VIEW site AS
SELECT building.*, site_class.* EXCLUDE (b)
FROM building
JOIN site_class USING (b);
