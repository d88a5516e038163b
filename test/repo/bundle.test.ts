import { readdirSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';

/** What `vite build` noted of each chunk (vite.config.ts): its imports, and bytes by package. */
interface Chunk {
  readonly imports: readonly string[];
  readonly dynamicImports: readonly string[];
  readonly packages: Readonly<Record<string, number>>;
}

const read = (path: string): string => readFileSync(`dist/page/${path}`, 'utf8');
const chunks: Readonly<Record<string, Chunk>> = JSON.parse(read('.vite/chunks.json'));

const named = (pattern: RegExp): string => {
  const found = Object.keys(chunks).filter((name) => pattern.test(name));
  if (found.length !== 1) throw new Error(`${found.length} chunks are named like ${pattern}`);
  return found[0]!;
};

/** A chunk and all that it cannot start without. */
function needed(start: string, seen = new Set<string>()): ReadonlySet<string> {
  if (seen.has(start)) return seen;
  seen.add(start);
  for (const name of chunks[start]?.imports ?? []) needed(name, seen);
  return seen;
}

const gzipped = (name: string): number => gzipSync(read(name)).length;
const packagesIn = (names: Iterable<string>): string[] => [
  ...new Set([...names].flatMap((name) => Object.keys(chunks[name]!.packages))),
];

const entries = [...read('index.html').matchAll(/src="\.\/(assets\/[^"]+\.js)"/g)].map(
  ([, name]) => name!,
);
/** What the first screen starts: the page, the analyst's worker, the map and the worker that cuts its tiles. */
const firstScreen = {
  page: new Set(entries.flatMap((entry) => [...needed(entry)])),
  analyst: needed(named(/\/analyst\.worker-/)),
  map: needed(named(/\/MapPane-.*\.js$/)),
  tiles: needed(named(/\/worker-/)),
};

const all = new Set(Object.values(firstScreen).flatMap((names) => [...names]));
/** Chunks of tables of data/ and of libraries that the goal does not name. */
const beside = /\/(?:tables|libraries)-/;

/** Of the page and of its map. */
const styles = readdirSync('dist/page/assets')
  .filter((name) => /^(?:start|MapPane)-.*\.css$/.test(name))
  .map((name) => `assets/${name}`);

/** Packages that read files of one format only. */
const readers =
  /^(geotiff|h5wasm|netcdfjs|hyparquet.*|proj4|mgrs|wkt-parser|pako|lerc|read-excel-file|write-excel-file)$/;

describe('what a first visit loads', () => {
  test('our own code with Solid, d3 and PapaParse is at most 200 kB, gzip; map, engine, tables and other libraries stand apart', () => {
    const own = [...all].filter(
      (name) => !beside.test(name) && !/\/(?:maplibre|engine-client)-/.test(name),
    );
    const sizes = Object.fromEntries([...own, ...styles].map((name) => [name, gzipped(name)]));
    expect(styles).toHaveLength(2);
    const total = Object.values(sizes).reduce((sum, size) => sum + size, 0);
    expect(total, JSON.stringify(sizes, null, 1)).toBeLessThanOrEqual(200_000);
    // What the goal names is in what was weighed, and nothing that stands apart.
    const packages = packagesIn(own);
    expect(packages).toEqual(expect.arrayContaining(['own', 'solid-js', 'papaparse', 'd3-scale']));
    expect(packages.filter((name) => /duckdb|arrow|tanstack|idb|topojson/.test(name))).toEqual([]);
  });

  test('tables of data/ and other libraries add at most 50 kB', () => {
    const names = [...all].filter((name) => beside.test(name));
    expect(names.reduce((sum, name) => sum + gzipped(name), 0)).toBeLessThanOrEqual(50_000);
  });

  test.each(Object.entries(firstScreen))(
    '%s: no reader of one file format is in it',
    (_, names) => {
      expect(packagesIn(names).filter((name) => readers.test(name))).toEqual([]);
    },
  );

  test('the readers are there for the first file that needs them', () => {
    const lazy = new Set(Object.values(chunks).flatMap(({ dynamicImports }) => dynamicImports));
    const reached = packagesIn([...lazy].flatMap((name) => [...needed(name)]));
    expect(reached).toEqual(
      expect.arrayContaining(['geotiff', 'h5wasm', 'netcdfjs', 'hyparquet', 'proj4']),
    );
  });
});

describe('what is kept for use offline', () => {
  const kept = [...read('sw.js').matchAll(/url:"([^"]+)"/g)].map(([, url]) => url);

  test('every chunk of the page and of its workers is on the list', () => {
    expect(kept).toEqual(expect.arrayContaining(Object.keys(chunks)));
  });

  test('so are the page, the engine, the rain grid, the postal places, the example and the fonts', () => {
    expect(kept).toContain('index.html');
    for (const kind of [
      /duckdb-eh-.*\.wasm$/,
      /annual-precip-.*\.bin$/,
      /us-postal-.*\.bin$/,
      /invented-buildings-.*\.csv$/,
      /invented-walls-.*\.csv$/,
      /invented-maps-.*\.json$/,
      /us-stations-.*\.json$/,
      /\.woff2$/,
    ]) {
      expect(
        kept.filter((url) => kind.test(url!)),
        `${kind}`,
      ).not.toEqual([]);
    }
  });
});
