import { Refusal } from '../read/outcome.ts';
import {
  type Axis,
  latitudeAxis,
  longitudeAxis,
  meridianOn,
  placeOn,
  type Uneven,
} from './axis.ts';
import type { Grid } from './grid.ts';

/** Nodes in the order of the user's file: degrees, the quantity's unit (NaN is no data), row as a spreadsheet counts it. */
export interface Nodes {
  readonly longitude: number[];
  readonly latitude: number[];
  readonly value: number[];
  readonly row: number[];
}

/** Fewer rows than this share of the places of the grid they span are scattered points, not a grid. */
const leastFilled = 0.05;

type Which = 'longitude' | 'latitude';

const sameTurn = (a: number, b: number): boolean => {
  const turns = (a - b) / 360;
  return Math.abs(turns - Math.round(turns)) * 360 < 1e-8;
};

/** The axis, or the reason why these nodes have none. */
function even(file: string, nodes: Nodes, which: Which, axis: Axis | Uneven | null): Axis {
  if (axis === null) {
    throw new Refusal(
      file,
      `All nodes of ${file} have the same ${which}. A grid needs at least two.`,
    );
  }
  if (!('uneven' in axis)) return axis;
  const at = nodes[which].findIndex((x) => sameTurn(x, axis.uneven));
  throw new Refusal(
    file,
    `The ${which}s of ${file} are not evenly spaced: row ${nodes.row[at]} has ${nodes[which][at]}, which lies between the steps of about ${Number(axis.step.toPrecision(4))}°. A grid needs one spacing throughout, with enough decimals.`,
  );
}

function refuseScattered(file: string, rows: number, width: number, height: number): void {
  if (rows >= leastFilled * width * height) return;
  throw new Refusal(
    file,
    `The ${rows} rows of ${file} do not form a grid: spaced as they are they would need ${width} × ${height} nodes. Give one row for every node of a regular grid.`,
  );
}

/** Two rows for one node. The same meridian written a turn apart (−180 and 180) may be given twice with one value. */
function refuseRepeat(file: string, nodes: Nodes, a: number, b: number): void {
  const turned = nodes.longitude[a] !== nodes.longitude[b];
  if (turned && Object.is(nodes.value[a], nodes.value[b])) return;
  throw new Refusal(
    file,
    `Rows ${nodes.row[a]} and ${nodes.row[b]} of ${file} are the same node (longitude ${nodes.longitude[b]}, latitude ${nodes.latitude[b]}). Keep one of them.`,
  );
}

/** Values by node, rows north to south; NaN where the file has none. */
function placed(file: string, nodes: Nodes, x: Axis, y: Axis): Float32Array {
  const values = new Float32Array(x.count * y.count).fill(Number.NaN);
  const first = new Int32Array(values.length).fill(-1);
  for (let i = 0; i < nodes.value.length; i++) {
    const row = y.count - 1 - placeOn(y, nodes.latitude[i]!);
    const node = row * x.count + meridianOn(x, nodes.longitude[i]!);
    if (first[node]! >= 0) refuseRepeat(file, nodes, first[node]!, i);
    else first[node] = i;
    values[node] = nodes.value[i]!;
  }
  return values;
}

/** The regular grid that these nodes form, in any order, nodes may be absent. Throws a `Refusal` where they form none. */
export function gridOfNodes(file: string, nodes: Nodes, source: string, period: string): Grid {
  const x = even(file, nodes, 'longitude', longitudeAxis(nodes.longitude));
  const y = even(file, nodes, 'latitude', latitudeAxis(nodes.latitude));
  refuseScattered(file, nodes.value.length, x.count, y.count);
  return {
    width: x.count,
    height: y.count,
    west: x.first,
    north: y.first + (y.count - 1) * y.step,
    stepX: x.step,
    stepY: -y.step,
    values: placed(file, nodes, x, y),
    wrapsLongitude: Math.abs(x.count * x.step - 360) < x.step / 2,
    source,
    period,
  };
}
