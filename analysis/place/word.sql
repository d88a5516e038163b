-- word: the words that the columns of a wall may hold, as a type: a wall stores the place of its word, not its letters.
CREATE TYPE IF NOT EXISTS word AS ENUM (
  SELECT DISTINCT word
  FROM (
    SELECT material AS word FROM materials
    UNION ALL SELECT "group" FROM materials
    UNION ALL SELECT intrinsic_type FROM materials
    UNION ALL SELECT drainage FROM drainage
    UNION ALL SELECT sheathing FROM sheathing
    UNION ALL SELECT runoff FROM prior_runoff
    UNION ALL SELECT unnest(['recorded', 'remainder', 'assumed', 'wall', 'reclad', 'building'])
  )
  WHERE word IS NOT NULL
  ORDER BY word
);
