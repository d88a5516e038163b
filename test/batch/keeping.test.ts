import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { openKeeping } from '../../analysis/engine/native.ts';
import { EngineError } from '../../analysis/engine/port.ts';
import { removeFolders, workFolder } from './runs.ts';

afterAll(removeFolders);

const folder = workFolder();
const open = () =>
  openKeeping({
    kept: join(folder, "it's kept.duckdb"),
    temporary: join(folder, 'temporary'),
    memoryMb: 300,
  });

describe('an engine that keeps tables in a file', () => {
  const n = 5000;
  const amount = Float64Array.from({ length: n }, (_, i) => (i % 9 === 0 ? Number.NaN : i));
  const words = Array.from({ length: n }, (_, i) => (i % 7 === 0 ? null : `row ${i}`));

  test('has them again when it is opened again, NaN as NaN and null as NULL', async () => {
    const first = await open();
    await first.append('table', { n, cols: { amount, words } });
    await first.append('table', { n: 1, cols: { amount: Float64Array.of(-1), words: ['last'] } });
    await first.close();
    const again = await open();
    const text =
      'SELECT count(*) AS n, count(*) FILTER (isnan(amount)) AS nans, count(words) AS words FROM kept."table"';
    const { cols } = await again.query(text);
    const blank = Math.ceil(n / 7);
    expect(cols).toEqual({
      n: Float64Array.of(n + 1),
      nans: Float64Array.of(Math.ceil(n / 9)),
      words: Float64Array.of(n + 1 - blank),
    });
    await again.close();
  });

  test('hands rows on in pieces, in order, and sorts more than its memory holds', async () => {
    const engine = await open();
    await engine.query(
      'CREATE TABLE kept.large AS SELECT range AS i, repeat(md5(range::VARCHAR), 10) AS long FROM range(1500000)',
    );
    let [rows, last, pieces] = [0, '', 0];
    for await (const piece of engine.stream('SELECT i, long FROM kept.large ORDER BY long')) {
      const long = piece.cols.long as string[];
      expect(long[0]! > last).toBe(true);
      last = long.at(-1)!;
      rows += piece.n;
      pieces += 1;
    }
    expect(rows).toBe(1_500_000);
    expect(pieces).toBeGreaterThan(100);
    await engine.query('DROP TABLE kept.large');
    await engine.close();
  });

  test('stops handing on when it is asked to', async () => {
    const engine = await open();
    const stop = new AbortController();
    const going = async () => {
      for await (const _ of engine.stream('SELECT * FROM range(1000000)', stop.signal))
        stop.abort();
    };
    await expect(going()).rejects.toMatchObject({ name: 'AbortError' });
    await engine.close();
  });

  test('reads and writes no other file', async () => {
    const engine = await open();
    const other = join(folder, 'other.csv');
    writeFileSync(other, 'a\n1\n');
    for (const statement of [
      `SELECT * FROM read_csv('${other}')`,
      `COPY (SELECT 1) TO '${other}'`,
      `ATTACH '${join(folder, 'other.duckdb')}' AS other`,
    ]) {
      await expect(engine.query(statement), statement).rejects.toBeInstanceOf(EngineError);
    }
    await engine.close();
  });
});
