import { afterEach, describe, expect, test, vi } from 'vitest';
import { type Columns, cell } from '../../analysis/columns.ts';
import { type ExportFormat, exportFormats } from '../../analysis/session-types.ts';
import { csvRows, parquetRows, sheets } from './readers.ts';
import { hostileTexts, noColumns, own, ranking, written } from './scene.ts';

const numbers = [0, -12.5, 0.1 + 0.2, 1e-7, -1e21, 123456789.123, Number.NaN];
const rows = ranking(
  hostileTexts.map((name, i) => ({
    name,
    longitude: i === 3 ? null : -120 - i,
    latitude: i === 3 ? null : 47.5,
    insured_value: numbers[i % numbers.length]!,
    index: 90 - i,
    tier: i % 5,
  })),
);
const extra = own({
  Policy: [...hostileTexts].reverse(),
  '=cmd|calc': hostileTexts.map((_, i) => (i % 2 ? null : `P${i}`)),
  Index: hostileTexts.map(() => 'theirs'),
});

type Read = Readonly<Record<string, unknown>>;

/** The file as any reader of its format gives it back: objects by heading, null for no record. */
const readers: Readonly<Record<ExportFormat, (bytes: Uint8Array) => Promise<readonly Read[]>>> = {
  csv: csvRows,
  json: async (bytes) => JSON.parse(new TextDecoder().decode(bytes)),
  geojson: async (bytes) => {
    const { features } = JSON.parse(new TextDecoder().decode(bytes));
    return features.map(({ geometry, properties }: { geometry: Geometry; properties: Read }) => {
      const [longitude, latitude] = geometry?.coordinates ?? [null, null];
      return { ...properties, longitude, latitude };
    });
  },
  xlsx: async (bytes) => {
    const [heads, ...cells] = (await sheets(bytes)).ranking!;
    return cells.map((row) => Object.fromEntries(heads!.map((name, i) => [name, row[i] ?? null])));
  },
  parquet: parquetRows,
};
type Geometry = { readonly coordinates: readonly number[] } | null;

/** What a format by its nature makes of a text; stated here without our code. */
const carried: Readonly<Record<ExportFormat, (text: string) => string>> = {
  json: (text) => text,
  geojson: (text) => text,
  parquet: (text) => text,
  xlsx: (text) => text.replaceAll(/\r\n?/g, '\n'),
  csv: (text) => (text !== '-12.5' && /^\s*[=+\-@＝\t\r]/.test(text) ? `'${text}` : text),
};
const repaired = (text: string) => Buffer.from(text, 'utf8').toString('utf8');

describe('the ranking as a file', () => {
  test.each(exportFormats)('%s holds the same rows and values as the table', async (format) => {
    const found = await readers[format](await written(format, rows, extra));
    expect(found).toHaveLength(rows.n);
    found.forEach((row, i) => {
      const name = cell(rows, 'name', i) as string;
      // A text longer than a cell of a workbook is another test's.
      if (format !== 'xlsx' || name.length < 32_767) {
        expect(row.name).toBe(carried[format](repaired(name)));
      }
      for (const column of ['rank', 'longitude', 'latitude', 'index', 'insured_value']) {
        const value = row[column] === null ? null : Number(row[column]);
        expect(value, `${column} of row ${i}`).toBe(cell(rows, column, i));
      }
      const heading = format === 'csv' ? "'=cmd|calc" : '=cmd|calc';
      expect(row[heading]).toBe(i % 2 ? null : `P${i}`);
      expect(row.Index_yours).toBe('theirs');
      expect(row.caution).toBe('SCREENING-NOT-DIAGNOSIS');
    });
  });

  test.each(exportFormats)(
    '%s of no buildings is a whole file with its headings',
    async (format) => {
      const bytes = await written(format, ranking([]));
      expect(await readers[format](bytes)).toEqual([]);
      if (format === 'csv') expect(new TextDecoder().decode(bytes)).toMatch(/^rank,building_id,/);
    },
  );

  test('a heading of the user’s that is a number stays behind the columns of the contract', async () => {
    const bytes = await written('json', ranking([{}]), own({ 2021: ['x'] }));
    expect(new TextDecoder().decode(bytes)).toMatch(/"caution": .+,\n {2}"2021": "x"\n/);
  });

  test('headings of the user’s that are ours, in any case, get a name of their own', async () => {
    const theirs = own({
      Rank: ['1'],
      rank: ['2'],
      rank_yours: ['3'],
      constructor: ['4'],
      '': ['5'],
    });
    const [row] = await parquetRows(await written('parquet', ranking([{}]), theirs));
    expect(Object.keys(row!).slice(-5)).toEqual([
      'Rank_yours',
      'rank_yours_yours',
      'rank_yours_yours_yours',
      'constructor',
      'unnamed',
    ]);
    expect(Object.values(row!).slice(-5)).toEqual(['1', '2', '3', '4', '5']);
  });

  test('a building without a place has no geometry (RFC 7946, 3.2)', async () => {
    const bytes = await written('geojson', ranking([{ latitude: 47, longitude: null }]));
    expect(JSON.parse(new TextDecoder().decode(bytes)).features[0].geometry).toBeNull();
  });
});

describe('the same ranking makes the same bytes', () => {
  const zone = process.env.TZ;
  afterEach(() => {
    vi.useRealTimers();
    if (zone === undefined) delete process.env.TZ;
    else process.env.TZ = zone;
  });
  const at = async (format: ExportFormat, time: string, place: string, table: Columns) => {
    vi.useFakeTimers({ toFake: ['Date'], now: new Date(time) });
    process.env.TZ = place;
    const offset = new Date().getTimezoneOffset();
    return { offset, bytes: await written(format, table, noColumns, '{"as_of":2026}\n') };
  };

  test.each(exportFormats)('%s, whatever the clock and its zone', async (format) => {
    const here = await at(format, '2026-01-31T12:00:00Z', 'Pacific/Auckland', rows);
    const there = await at(format, '2031-07-01T03:04:05Z', 'America/St_Johns', rows);
    expect(there.offset).not.toBe(here.offset);
    expect(Buffer.compare(there.bytes, here.bytes)).toBe(0);
  });
});
