import type { Columns } from '../../analysis/columns.ts';

/** Statements that would have an open DuckDB ask the network or the disk; none may get further than a refusal. */
export const prying = [
  'LOAD httpfs',
  'LOAD spatial',
  "SELECT * FROM read_csv('https://example.invalid/a.csv')",
  "SELECT * FROM 'https://example.invalid/a.parquet'",
  "SELECT * FROM read_parquet('s3://example-bucket/a.parquet')",
  "ATTACH 'https://example.invalid/a.duckdb' AS a",
  "COPY (SELECT 1) TO 'https://example.invalid/a.csv'",
  "SELECT * FROM read_text('/etc/hostname')",
  'SET enable_external_access = true',
  'SET autoinstall_known_extensions = true',
  'SET autoload_known_extensions = true',
];

/** One engine refuses these and the other has nothing to do for them; neither may ask the network. */
export const harmless = ['INSTALL httpfs', 'LOAD icu', 'LOAD json'];

/** Functions of extensions: built into the native engine, absent from the page's; neither may ask for them. */
export const extensionFunctions = [
  "SELECT TIMESTAMP '2020-01-01' AT TIME ZONE 'America/Vancouver' AS x",
  "SELECT date_trunc('day', TIMESTAMPTZ '2020-01-01 00:00:00+00') AS x",
  'SELECT current_date AS x',
  "SELECT json_extract('{\"a\":1}', '$.a') AS x",
  'SELECT st_point(1, 2) AS x',
];

/** A table with everything that a load must carry. */
export const awkward: Columns = {
  n: 4,
  cols: {
    amount: Float64Array.of(1.5, Number.NaN, -0.1, 1e300),
    words: ['plain', null, '', 'añ “quoted” \u{1f327}'],
    'odd "name"': ['a', 'b', null, 'd\ne'],
  },
};
