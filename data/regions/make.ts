import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { feature } from 'topojson-client';
import type { GeometryCollection, Topology } from 'topojson-specification';
import { shortestRun, turnedTo } from '../../analysis/place/longitudes.ts';

/** West, south, east, north in degrees; Alaska's crosses 180°, so that its west is greater than its east. */
type Box = readonly [number, number, number, number];
type Atlas = Topology<{ states: GeometryCollection<{ name: string }> }>;

const heading = 'code,name,also,country,west,south,east,north,marine_possible,source';
const computed = 'us-atlas 3.0.1 states-10m.json (US Census Bureau cartographic boundaries 2017)';
const typed = 'from memory; rounded outward';
const judged = 'marine_possible: judgement';

function readAtlas(): Atlas {
  const manifest = createRequire(import.meta.url).resolve('us-atlas/package.json');
  return JSON.parse(readFileSync(join(dirname(manifest), 'states-10m.json'), 'utf8'));
}

/** Positions of any nesting, flat. */
function positions(coordinates: unknown): readonly (readonly [number, number])[] {
  const list = coordinates as readonly unknown[];
  return typeof list[0] === 'number'
    ? [list as unknown as readonly [number, number]]
    : list.flatMap(positions);
}

function boxOf(points: readonly (readonly [number, number])[]): Box {
  const { west, east } = shortestRun(Float64Array.from(points, ([x]) => x))!;
  return [outward(west, -1), south(points), turnedTo(0, outward(east, 1)), north(points)];
}

const outward = (degrees: number, sign: 1 | -1): number =>
  (sign * Math.ceil(sign * degrees * 100)) / 100;
const south = (points: readonly (readonly [number, number])[]): number =>
  outward(Math.min(...points.map(([, y]) => y)), -1);
const north = (points: readonly (readonly [number, number])[]): number =>
  outward(Math.max(...points.map(([, y]) => y)), 1);

function stateBoxes(): ReadonlyMap<string, Box> {
  const atlas = readAtlas();
  const states = feature(atlas, atlas.objects.states).features;
  return new Map(
    states.map(({ properties, geometry }) => {
      if (!('coordinates' in geometry)) throw new Error(`no outline of ${properties.name}`);
      return [properties.name, boxOf(positions(geometry.coordinates))] as const;
    }),
  );
}

/**
 * Text of data/regions.csv: names, codes and Canadian boxes as typed in `typed` (text of data/regions/typed.csv), US
 * boxes from the outlines of npm us-atlas, rounded outward to 0.01°. Write it with `npx vitest run test/place -u`.
 */
export function makeRegions(typedText: string): string {
  const boxes = stateBoxes();
  const rows = typedText.trim().split('\n').slice(1);
  return `${[heading, ...rows.map((row) => completed(row, boxes))].join('\n')}\n`;
}

function completed(row: string, boxes: ReadonlyMap<string, Box>): string {
  const [code, name, also, country, west, south, east, north, marine] = row.split(',');
  const box = boxes.get(name!);
  if (country === 'US' && !box) throw new Error(`no outline of ${name}`);
  const sides = country === 'US' ? box! : [west, south, east, north];
  const source = `${country === 'US' ? computed : typed}; ${judged}`;
  return [code, name, also, country, ...sides, marine, source].join(',');
}
