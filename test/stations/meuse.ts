import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import type { Neighbours } from '../../analysis/stations/krige.ts';
import type { NeighboursOutside } from '../../analysis/stations/leave-out.ts';
import type { Field, Places } from '../../analysis/stations/system.ts';

const beside = (name: string): string =>
  readFileSync(new URL(`../reference/stations/${name}`, import.meta.url), 'utf8');

const columnsOf = (name: string) => {
  const { data } = Papa.parse(beside(name), { header: true, skipEmptyLines: true });
  const rows = data as unknown as Record<string, string>[];
  return (column: string) => Float64Array.from(rows, (row) => Number(row[column]));
};

const data = columnsOf('meuse.csv');
const grid = columnsOf('meuse-grid.csv');
const [x, y, gx, gy] = [data('x'), data('y'), grid('x'), grid('y')];

/** What R says of the same data; written by test/reference/stations/krige.R. */
export const reference = JSON.parse(beside('krige.json'));

/** sp::meuse: ln zinc at 155 places of a plane (metres), with drift 1 and √dist. */
export const meuse: Field = {
  z: data('zinc').map(Math.log),
  drift: [new Float64Array(x.length).fill(1), data('dist').map(Math.sqrt)],
  between: (i, j) => Math.hypot(x[i]! - x[j]!, y[i]! - y[j]!),
};

/** Rows 1, 500, 1500 and 3000 of sp::meuse.grid. */
export const places: Places = {
  n: gx.length,
  drift: [new Float64Array(gx.length).fill(1), grid('dist').map(Math.sqrt)],
  distance: (t, i) => Math.hypot(gx[t]! - x[i]!, gy[t]! - y[i]!),
};

/** psill 0.15, range 300, nugget 0.05. */
export const sill = 0.15;
export const shape = { range: 300, nugget: 0.05 / sill };

export const constantOnly = <T extends Field | Places>(of: T): T => ({
  ...of,
  drift: of.drift.slice(0, 1),
});

/** The nearest by looking at all: an independent stand-in for the search tree. */
function nearestOf(ids: Int32Array, distance: (i: number) => number, among: readonly number[]) {
  const sorted = [...among].sort((a, b) => distance(a) - distance(b) || a - b);
  const found = sorted.slice(0, ids.length);
  ids.set(found);
  return found.length;
}

const everyone = Array.from(x, (_, i) => i);

export const nearestPlaces: Neighbours = (t, ids) =>
  nearestOf(ids, (i) => places.distance(t, i), everyone);

export const nearestOutside: NeighboursOutside = (i, groups, ids) =>
  nearestOf(
    ids,
    (j) => meuse.between(i, j),
    everyone.filter((j) => groups[j] !== groups[i]),
  );
