import { rainConstant } from '../constants.ts';
import { parallelsKm } from '../great-circle.ts';
import type { GridFrame } from '../grid.ts';
import { projectorOf } from '../projection.ts';

/** The degrees the buildings lie within; `east` may be less than `west`: a box across the date line. */
export interface Window {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

/** Positions from (inclusive) to (exclusive) along an axis. */
interface Run {
  readonly from: number;
  readonly to: number;
}

/** Columns, in the order in which they are wanted, and rows of a raster. No columns: the window lies elsewhere. */
export interface Cut {
  readonly columns: readonly Run[];
  readonly rows: Run;
}

/** Nodes kept around what is needed: the value between two nodes takes both. */
const around = 2;

/** Places along each side of a window that are projected to find what it covers on a map projection. */
const looks = 32;

const kmPerDegree = parallelsKm(0, 1);

/** The window and the reach of a node that may stand in for a place without data. */
function padded({ west, south, east, north }: Window): Window {
  const reach = rainConstant('grid_reach_km') / kmPerDegree;
  const [low, high] = [Math.max(-90, south - reach), Math.min(90, north + reach)];
  const narrow = Math.cos((Math.max(Math.abs(low), Math.abs(high)) * Math.PI) / 180);
  const sideways = Math.min(180, reach / Math.max(narrow, 1e-6));
  const last = east < west ? east + 360 : east;
  return { west: west - sideways, south: low, east: last + sideways, north: high };
}

/** The positions between two coordinates of an axis, and `around` more; within 0 … count. Empty where it lies elsewhere. */
function between(first: number, step: number, count: number, a: number, b: number): Run {
  const [p, q] = [(a - first) / step, (b - first) / step];
  const from = Math.max(0, Math.floor(Math.min(p, q)) - around);
  const to = Math.min(count, Math.ceil(Math.max(p, q)) + around + 1);
  if (!(to > from)) return { from: 0, to: 0 };
  // One column or row is no grid: its neighbour goes with it.
  const start = to - from < 2 ? Math.max(0, from - 1) : from;
  return { from: start, to: Math.min(count, Math.max(to, start + 2)) };
}

const length = ({ from, to }: Run): number => to - from;

/** All columns of a grid around the world, beginning in the west. */
function aroundTheWorld({ west, stepX, width }: GridFrame): readonly Run[] {
  const first = Math.ceil((-180 - west) / stepX - 1e-6);
  const start = ((first % width) + width) % width;
  return start === 0
    ? [{ from: 0, to: width }]
    : [
        { from: start, to: width },
        { from: 0, to: start },
      ];
}

/** Columns of a grid around the world, which may run over its seam. */
function overTheSeam(frame: GridFrame, { west, east }: Window): readonly Run[] {
  const { stepX, width } = frame;
  const first = Math.floor((west - frame.west) / stepX) - around;
  const count = Math.ceil((east - frame.west) / stepX) + around + 1 - first;
  if (count >= width) return aroundTheWorld(frame);
  const from = ((first % width) + width) % width;
  const runs = [
    { from, to: Math.min(width, from + count) },
    { from: 0, to: from + count - width },
  ];
  return runs.filter((run) => run.to > run.from);
}

/** The columns of a regional grid, whose longitudes may be a turn away from those of the window. */
function regional(frame: GridFrame, { west, east }: Window): readonly Run[] {
  const runs = [-720, -360, 0, 360, 720].map((turn) =>
    between(frame.west, frame.stepX, frame.width, west + turn, east + turn),
  );
  const best = runs.reduce((a, b) => (length(b) > length(a) ? b : a));
  return length(best) > 0 ? [best] : [];
}

/** The window in the coordinates of the projection; null where the projection does not reach it. */
function projected(projection: string, { west, south, east, north }: Window): Window | null {
  const { forward } = projectorOf(projection);
  const at = new Float64Array(2);
  const [xs, ys]: [number[], number[]] = [[], []];
  for (let k = 0; k < (looks + 1) ** 2; k++) {
    const u = (k % (looks + 1)) / looks;
    const v = Math.floor(k / (looks + 1)) / looks;
    forward(west + u * (east - west), south + v * (north - south), at);
    if (Number.isNaN(at[0]!) || Number.isNaN(at[1]!)) continue;
    xs.push(at[0]!);
    ys.push(at[1]!);
  }
  if (xs.length === 0) return null;
  return {
    west: Math.min(...xs),
    south: Math.min(...ys),
    east: Math.max(...xs),
    north: Math.max(...ys),
  };
}

/** What of a raster the buildings need; the whole of it for no window. */
export function cutOf(frame: GridFrame, window: Window | null): Cut {
  const { width, height, north, stepY, wrapsLongitude, projection } = frame;
  if (window === null) {
    const columns = wrapsLongitude ? aroundTheWorld(frame) : [{ from: 0, to: width }];
    return { columns, rows: { from: 0, to: height } };
  }
  const degrees = padded(window);
  const box = projection === undefined ? degrees : projected(projection, degrees);
  if (box === null) return { columns: [], rows: { from: 0, to: 0 } };
  const rows = between(north, stepY, height, box.south, box.north);
  if (length(rows) === 0) return { columns: [], rows };
  if (projection !== undefined) {
    const columns = between(frame.west, frame.stepX, width, box.west, box.east);
    return { columns: length(columns) > 0 ? [columns] : [], rows };
  }
  return { columns: wrapsLongitude ? overTheSeam(frame, box) : regional(frame, box), rows };
}
