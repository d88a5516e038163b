-- wall_load: one row a wall, the load_case it belongs to.
CREATE OR REPLACE VIEW wall_load AS
SELECT wall, b, load_case
FROM wall_case;
