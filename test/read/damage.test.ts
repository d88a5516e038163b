import fc from 'fast-check';
import { unzipSync, zipSync } from 'fflate';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { Refusal } from '../../analysis/read/outcome.ts';
import { sheetNames } from '../../analysis/read/records.ts';
import { type Exports, exportsOf } from './duck-tables.ts';
import { bytesOf, sourceOf, utf16 } from './sources.ts';
import { fixture, tableOf } from './tables.ts';

const small = `SELECT 'B-' || i AS id, CASE WHEN i % 3 = 0 THEN NULL ELSE 'Tern ' || (i % 5) END AS name, i * 1.5 AS x,
  (i * 7)::DECIMAL(9, 2) AS money, DATE '2020-01-01' + i::INTEGER AS day, i % 2 = 0 AS flag FROM range(60) t(i)`;
const nested = `SELECT [i, i + 1] AS list, {'a': i, 'b': 'x'} AS pair, TIMESTAMP '2026-07-01' AS t FROM range(20) t(i)`;

const csv = 'id;name;lat;lon\r\nB-1;"Résidence ""x""\r\ny";47,1;-122,5\r\nB-2;;48,2;-121,5\r\n';
const unpacked = zipSync(unzipSync(fixture('list.xlsx')), { level: 0 });

const held: Readonly<Record<string, Uint8Array>> = {
  'a.csv': bytesOf(csv),
  'wide.csv': utf16(csv, 'little'),
  'list.xlsx': fixture('list.xlsx'),
  'stored.xlsx': unpacked,
  'other.xlsx': fixture('other.xlsx'),
  'places.geojson': fixture('places.geojson'),
  'places.geojsonl': fixture('places.geojsonl'),
};
const written = [
  'plain.parquet',
  'snappy.parquet',
  'gzip.parquet',
  'zstd.parquet',
  'second.parquet',
  'nested.parquet',
];

let files: Exports = held;
const unhandled: unknown[] = [];
const note = (reason: unknown): number => unhandled.push(reason);

beforeAll(async () => {
  process.on('unhandledRejection', note);
  const made = await exportsOf({
    'plain.parquet': [small, 'FORMAT parquet, COMPRESSION uncompressed'],
    'snappy.parquet': [small, 'FORMAT parquet, COMPRESSION snappy'],
    'gzip.parquet': [small, 'FORMAT parquet, COMPRESSION gzip'],
    'zstd.parquet': [small, 'FORMAT parquet, COMPRESSION zstd'],
    'second.parquet': [small, 'FORMAT parquet, PARQUET_VERSION v2'],
    'nested.parquet': [nested, 'FORMAT parquet, COMPRESSION uncompressed'],
  });
  files = { ...held, ...made };
});
afterAll(() => {
  process.off('unhandledRejection', note);
});

/** Bytes changed, a piece left out, or the end cut off. */
const damage = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.array(fc.tuple(fc.nat(), fc.nat(255)), { minLength: 1, maxLength: 6 }),
  },
  { weight: 1, arbitrary: fc.record({ from: fc.nat(), length: fc.nat(64) }) },
  { weight: 1, arbitrary: fc.nat().map((cut) => ({ cut })) },
);
type Damage = typeof damage extends fc.Arbitrary<infer T> ? T : never;

function damaged(whole: Uint8Array, how: Damage): Uint8Array {
  if ('cut' in how) return whole.slice(0, how.cut % whole.length);
  if ('from' in how) {
    const from = how.from % whole.length;
    return new Uint8Array(
      Buffer.concat([whole.subarray(0, from), whole.subarray(from + how.length)]),
    );
  }
  const bytes = whole.slice();
  for (const [at, byte] of how) bytes[at % bytes.length] = byte;
  return bytes;
}

/** Records or a refusal: anything else is an error of ours. */
async function outcome(name: string, content: Uint8Array): Promise<'read' | 'refused'> {
  try {
    await tableOf(name, content);
    await sheetNames(sourceOf(name, content));
    return 'read';
  } catch (error) {
    if (error instanceof Refusal && error.message.includes(name)) return 'refused';
    throw error;
  }
}

const runs = Number(process.env.DAMAGE_RUNS ?? 300);

test.each([...Object.keys(held), ...written])(
  '%s, damaged in any way, is read or refused in words (property)',
  async (name) => {
    expect(await outcome(name, files[name]!)).toBe('read');
    const seen = { read: 0, refused: 0 };
    await fc.assert(
      fc.asyncProperty(damage, async (how) => {
        seen[await outcome(name, damaged(files[name]!, how))] += 1;
      }),
      { seed: 2026, numRuns: runs },
    );
    expect(seen.refused).toBeGreaterThan(0);
    expect(unhandled).toEqual([]);
  },
);
