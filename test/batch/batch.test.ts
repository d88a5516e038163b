import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test, vi } from 'vitest';
import { rowObject } from '../../analysis/columns.ts';
import type { KeepingEngine } from '../../analysis/engine/port.ts';
import { memorySource } from '../../analysis/read/memory-source.ts';
import { Refusal } from '../../analysis/read/outcome.ts';
import type { Inputs, Progress } from '../../analysis/session-types.ts';
import { generateDemo } from '../../data/demo/generate.ts';
import { duck } from '../export/readers.ts';
import { exportsOf } from '../read/duck-tables.ts';
import { inputs } from '../session/open.ts';
import {
  type Asked,
  csvAlone,
  inMemory,
  kept,
  outcome,
  removeFolders,
  workFolder,
} from './runs.ts';

// Every test scores a portfolio several times over.
vi.setConfig({ testTimeout: 120_000 });
afterAll(removeFolders);

const { buildingsCsv, wallsCsv } = generateDemo({ buildings: 700, seed: 11 });

/** The same rows with a long column of the user's own, so that the file is longer than what is read at once. */
function widened(csv: string): string {
  const rows = csv.trimEnd().split(/\r?\n/);
  const own = (i: number) => (i === 0 ? 'Own, of theirs' : `${'x'.repeat(900)} ${i}`);
  return rows.map((row, i) => `${row},"${own(i)}"\n`).join('');
}

const lines = (csv: string): string[] => csv.trimEnd().split('\n');
const long = widened(buildingsCsv);
const batch = (given: Inputs, asked: Asked = csvAlone) =>
  kept(workFolder(), given, (run, engine) => outcome(run, engine, asked));

describe('a run in parts', () => {
  // The first building comes again at the end, and there is a wall of no building.
  const again = `${long}${lines(long)[1]}\n`;
  const orphan = `${wallsCsv}NOWHERE-1,front,0,stucco\n`;
  const given = inputs(again, orphan);
  const asked: Asked = [
    ['csv', 'metric'],
    ['csv', 'american'],
    ['parquet', 'metric'],
    ['json', 'metric'],
    ['geojson', 'metric'],
    ['xlsx', 'metric'],
  ];

  test('gives the bytes, sidecar, report and remarks of a run in memory, in every format', async () => {
    const [parts, whole] = [await batch(given, asked), await inMemory(given, asked)];
    expect(parts.report).toEqual(whole.report);
    expect(parts.remarks).toBe(whole.remarks);
    expect(parts.about).toBe(whole.about);
    for (const [name, bytes] of Object.entries(whole.files)) {
      expect(parts.files[name]!.equals(bytes), name).toBe(true);
    }
    for (const { rowsRead, accepted, setAside, joined } of parts.report.files) {
      expect(accepted + setAside + joined).toBe(rowsRead);
    }
    expect(parts.remarks).toContain(`,${lines(again).length},`);
    expect(parts.remarks).toMatch(/building_id ""[^"]+"" is already used in row 2\./);
    expect(parts.remarks).toContain('no building NOWHERE-1 in the building list');
  });

  test('counts the buildings of every shard from 0 without a gap, as the kernels of the method need it', async () => {
    const found: Record<string, unknown>[] = [];
    const folder = workFolder();
    const text = 'SELECT min(b) AS first, max(b) + 1 - count(*) AS gaps FROM building';
    const watched = (engine: KeepingEngine): KeepingEngine => ({
      ...engine,
      query: async (statement, ...rest) => {
        if (statement === 'BEGIN TRANSACTION') found.push(rowObject(await engine.query(text), 0));
        return engine.query(statement, ...rest);
      },
    });
    await kept(folder, inputs(buildingsCsv), async () => {}, {}, watched);
    expect(found.length).toBeGreaterThan(1);
    expect(found).toEqual(found.map(() => ({ first: 0, gaps: 0 })));
  });

  test('asks no order of the wall records', async () => {
    const [head, ...rows] = lines(wallsCsv);
    const turned = inputs(buildingsCsv, `${[head, ...rows.reverse()].join('\n')}\n`);
    const [parts, whole] = [await batch(turned), await inMemory(turned)];
    expect(parts.files).toEqual(whole.files);
    expect(parts.remarks).toBe(whole.remarks);
  });

  test('takes a record that names no wall for that of an earlier file, as in memory', async () => {
    const [head, ...rows] = lines(wallsCsv);
    const at = (name: string) => head!.trim().split(',').indexOf(name);
    const sides = rows.flatMap((row) => {
      const cells = row.split(',');
      const azimuth = cells[at('azimuth_deg')]!;
      return /^\d+$/.test(azimuth) && !row.includes('"')
        ? [`${cells[0]},${azimuth},brick_veneer,drawing`]
        : [];
    });
    const second = `building_id,azimuth_deg,material,source\n${sides.join('\n')}\n`;
    const given = inputs(buildingsCsv, wallsCsv);
    const both = { ...given, walls: [...given.walls!, memorySource('second.csv', second)] };
    const [parts, whole] = [await batch(both), await inMemory(both)];
    expect(parts.report).toEqual(whole.report);
    expect(parts.remarks).toBe(whole.remarks);
    expect(parts.remarks).toContain('is taken for wall');
    expect(parts.files).toEqual(whole.files);
  });

  test('ranks a list without wall records, and one that holds its walls', async () => {
    const bare = inputs(buildingsCsv);
    expect((await batch(bare)).files).toEqual((await inMemory(bare)).files);
    const sheet = inputs(
      `id,lat,lon,North material,South material\n${Array.from(
        { length: 700 },
        (_, i) => `B${i},47.${i + 100},-122.3,stucco,${i % 3 === 0 ? '' : 'brick veneer'}\n`,
      ).join('')}`,
    );
    const [parts, whole] = [await batch(sheet), await inMemory(sheet)];
    expect(whole.report.files).toHaveLength(2);
    expect(parts.report).toEqual(whole.report);
    expect(parts.files).toEqual(whole.files);
  });

  test('reads and writes Parquet, as DuckDB writes and reads it', async () => {
    const folder = workFolder();
    const csv = { buildings: join(folder, 'b.csv'), walls: join(folder, 'w.csv') };
    writeFileSync(csv.buildings, buildingsCsv);
    writeFileSync(csv.walls, wallsCsv);
    const all = (path: string) => `SELECT * FROM read_csv('${path}', all_varchar = true)`;
    const given = await exportsOf({
      'b.parquet': [all(csv.buildings), 'FORMAT parquet, ROW_GROUP_SIZE 2048'],
      'w.parquet': [all(csv.walls), 'FORMAT parquet, ROW_GROUP_SIZE 2048'],
    });
    const tables = {
      buildings: memorySource('b.parquet', given['b.parquet']!),
      walls: [memorySource('w.parquet', given['w.parquet']!)],
    };
    const asked: Asked = [['parquet', 'metric'], ...csvAlone];
    const [parts, whole] = [await batch(tables, asked), await inMemory(tables, asked)];
    expect(parts).toEqual(whole);
    const ranked = join(folder, 'ranked.csv');
    const bytes = parts.files['parquet metric']!;
    writeFileSync(ranked, parts.files['csv metric']!);
    const rows = (from: string) => `SELECT rank, building_id, "index", tier, reason FROM ${from}`;
    const [inParquet] = await duck(
      bytes,
      'parquet',
      `SELECT count(*)::INT AS n FROM (${rows('read_parquet($file)')} EXCEPT ${rows(`read_csv('${ranked}')`)})`,
    );
    expect(inParquet).toEqual({ n: 0 });
  });

  test('refuses a list of which nothing is accepted in the words of a run in memory', async () => {
    const none = inputs('id,lat,lon\nA,0,0\nB,95,0\nC,0,0\n');
    const refused = await inMemory(none).catch((cause: Refusal) => cause);
    expect(refused).toBeInstanceOf(Refusal);
    await expect(batch(none)).rejects.toThrow((refused as Refusal).message);
  });
});

describe('a run that was stopped', () => {
  const demo = inputs(long, wallsCsv);

  /** Stops once the share of the scoring is reached. */
  async function stoppedAt(folder: string, share: number): Promise<void> {
    const stop = new AbortController();
    const onProgress = (progress: Progress) => {
      if (progress.what === 'Scoring' && (progress.share ?? 0) >= share) stop.abort();
    };
    const watching = { signal: stop.signal, onProgress };
    const going = kept(folder, demo, async () => 'done', { watching });
    await expect(going).rejects.toMatchObject({ name: 'AbortError' });
  }

  test('goes on after the last buildings scored, and gives the same bytes', async () => {
    const folder = workFolder();
    await stoppedAt(folder, 0.6);
    const read: string[] = [];
    const watching = { onProgress: ({ what }: Progress) => void read.push(what) };
    const [begun, parts] = await kept(
      folder,
      demo,
      async (run, engine) => [run.begun, await outcome(run, engine)] as const,
      { watching },
    );
    expect(begun).toEqual({ scored: 300 });
    expect(read.filter((what) => what.startsWith('Reading'))).toEqual([]);
    const whole = await inMemory(demo);
    expect(parts).toEqual(whole);
  });

  test('starts anew where files or settings are others, and keeps nothing of the old ones', async () => {
    const folder = workFolder();
    await stoppedAt(folder, 0.6);
    const other = inputs(lines(buildingsCsv).slice(0, 350).join('\n'), wallsCsv);
    const [begun, parts] = await kept(
      folder,
      other,
      async (run, engine) => [run.begun, await outcome(run, engine)] as const,
      { key: 'another' },
    );
    expect(begun).toBe('changed');
    expect(parts).toEqual(await inMemory(other));
  });

  test('while its files were read is read anew', async () => {
    const folder = workFolder();
    const stop = new AbortController();
    const onProgress = ({ what }: Progress) => {
      if (what === 'Reading buildings.csv') stop.abort();
    };
    const watching = { signal: stop.signal, onProgress };
    await expect(kept(folder, demo, async () => 'done', { watching })).rejects.toMatchObject({
      name: 'AbortError',
    });
    const begun = await kept(folder, demo, async (run) => [run.begun, run.counts]);
    expect(begun[0]).toBe('new');
  });
});
