import { earthRadiusKm, haversineKm } from './great-circle.ts';
import type { RainGrid } from './grid.ts';
import { better, type Nearest, none, type Point, round6 } from './nearest.ts';
import { type Projector, projectorOf } from './projection.ts';

/**
 * How far the scale of a projection may shrink between a point and a node within reach of it. On a Mercator map the
 * scale changes by 7 % over 150 km at 70° of latitude, and other maps in use change less.
 */
const leastScale = 0.7;

/** Squared kilometres of a step of du columns and dv rows near a point: a du² + 2 b du dv + c dv². */
interface Metric {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

const radians = Math.PI / 180;

/** Kilometres east and north of a point at which the place (x, y) of the projection lies. */
function offset(
  projector: Projector,
  from: Point,
  x: number,
  y: number,
): readonly [number, number] {
  const at = new Float64Array(2);
  projector.inverse(x, y, at);
  const turned = at[0]! - from.longitude;
  const east = turned - 360 * Math.round(turned / 360);
  return [
    earthRadiusKm * radians * east * Math.cos(from.latitude * radians),
    earthRadiusKm * radians * (at[1]! - from.latitude),
  ];
}

function metricAt(grid: RainGrid, projector: Projector, from: Point, x: number, y: number): Metric {
  const [ue, un] = offset(projector, from, x + grid.stepX, y);
  const [ve, vn] = offset(projector, from, x, y + grid.stepY);
  return { a: ue * ue + un * un, b: ue * ve + un * vn, c: ve * ve + vn * vn };
}

/** Least kilometres of a step by one column or row, whatever the other does. */
const leastStepKm = ({ a, b, c }: Metric): number => Math.sqrt((a * c - b * b) / Math.max(a, c));

const planeKm = ({ a, b, c }: Metric, du: number, dv: number): number =>
  Math.sqrt(a * du * du + 2 * b * du * dv + c * dv * dv);

/** Calls `visit` for the nodes of the grid at exactly `ring` columns or rows from a node. */
function aroundRing(
  grid: RainGrid,
  column: number,
  row: number,
  ring: number,
  visit: (node: number, column: number, row: number) => void,
): void {
  const first = Math.max(0, column - ring);
  const last = Math.min(grid.width - 1, column + ring);
  for (let r = Math.max(0, row - ring); r <= Math.min(grid.height - 1, row + ring); r++) {
    const whole = r === row - ring || r === row + ring;
    for (let c = first; c <= last; c++) {
      if (!whole && c > column - ring && c < column + ring) c = column + ring;
      if (c > last) break;
      const node = r * grid.width + c;
      if (!Number.isNaN(grid.mm[node]!)) visit(node, c, r);
    }
  }
}

/**
 * The nearest node with data within `limitKm` of a point (degrees), on a grid that is regular on a map projection.
 * Distances are great circles; rings of nodes are searched outwards until none further out can be nearer.
 */
export function nearestOnProjection(grid: RainGrid, to: Point, limitKm: number): Nearest {
  const projector = projectorOf(grid.projection!);
  const at = new Float64Array(2);
  projector.forward(to.longitude, to.latitude, at);
  const [x, y] = [at[0]!, at[1]!];
  const metric = metricAt(grid, projector, to, x, y);
  const stepKm = leastStepKm(metric) * leastScale;
  if (!(stepKm > 0 && limitKm > 0)) return none;
  const [fx, fy] = [(x - grid.west) / grid.stepX, (y - grid.north) / grid.stepY];
  let best = none;
  const visit = (node: number, column: number, row: number): void => {
    const within = Math.min(best.km, limitKm);
    if (planeKm(metric, column - fx, row - fy) * leastScale > within) return;
    projector.inverse(grid.west + column * grid.stepX, grid.north + row * grid.stepY, at);
    const km = round6(haversineKm(to.longitude, to.latitude, at[0]!, at[1]!));
    best = better(best, { node, km });
  };
  for (let ring = 0; (ring - 0.5) * stepKm <= Math.min(best.km, limitKm); ring++) {
    aroundRing(grid, Math.round(fx), Math.round(fy), ring, visit);
  }
  return best.km <= limitKm ? best : none;
}
