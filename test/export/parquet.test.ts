import { describe, expect, test } from 'vitest';
import { duck } from './readers.ts';
import { own, ranking, written } from './scene.ts';

const about = '{ "as_of": 2026, "caution": ["=1", "é"] }';

describe('a Parquet file, as DuckDB reads it', () => {
  test('has DOUBLE and VARCHAR columns, the same ones when every value is missing', async () => {
    const full = await written('parquet', ranking([{ name: 'x', index: 1 }]), own({ Año: ['1'] }));
    const empty = await written('parquet', ranking([{}, {}]), own({ Año: [null, null] }));
    const types = async (bytes: Uint8Array) =>
      (await duck(bytes, 'parquet', 'DESCRIBE SELECT * FROM read_parquet($file)')).map(
        ({ column_name, column_type }) => [column_name, column_type],
      );
    const found = Object.fromEntries(await types(full));
    expect(found).toMatchObject({ rank: 'DOUBLE', latitude: 'DOUBLE', index: 'DOUBLE' });
    expect(found).toMatchObject({
      name: 'VARCHAR',
      tier: 'VARCHAR',
      reason: 'VARCHAR',
      Año: 'VARCHAR',
    });
    expect(await types(empty)).toEqual(await types(full));
  });

  test('has NULL for no record, in numbers and texts', async () => {
    const rows = ranking([{ index: 0, name: 'x' }, { index: null, name: null }, { index: 2 }]);
    const [counts] = await duck(
      await written('parquet', rows),
      'parquet',
      'SELECT count(*)::INT AS n, count("index")::INT AS numbers, count(name)::INT AS texts, count(*) FILTER (isnan("index"))::INT AS nans FROM read_parquet($file)',
    );
    expect(counts).toEqual({ n: 3, numbers: 2, texts: 1, nans: 0 });
  });

  test('is written in row groups of at most 20,000 rows, in order', async () => {
    const rows = ranking(Array.from({ length: 45_001 }, (_, i) => ({ name: `N${i}` })));
    const bytes = await written('parquet', rows);
    const groups = await duck(
      bytes,
      'parquet',
      'SELECT DISTINCT row_group_id::INT AS id, row_group_num_rows::INT AS n FROM parquet_metadata($file) ORDER BY id',
    );
    expect(groups).toEqual([
      { id: 0, n: 20_000 },
      { id: 1, n: 20_000 },
      { id: 2, n: 5_001 },
    ]);
    const [kept] = await duck(
      bytes,
      'parquet',
      `SELECT count(*)::INT AS n, bool_and(rank = file_row_number + 1 AND name = 'N' || file_row_number) AS ordered FROM read_parquet($file, file_row_number = true)`,
    );
    expect(kept).toEqual({ n: 45_001, ordered: true });
  });

  test('carries the sidecar in its own metadata', async () => {
    const bytes = await written('parquet', ranking([{}]), undefined, about);
    const [kept] = await duck(
      bytes,
      'parquet',
      'SELECT decode(key) AS key, decode(value) AS value FROM parquet_kv_metadata($file)',
    );
    expect(kept).toEqual({ key: 'about', value: about });
  });
});
