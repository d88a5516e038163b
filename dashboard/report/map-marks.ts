import type { Bounds } from '../../analysis/place/bounds.ts';
import type { Frame } from '../../analysis/session-types.ts';

/** Buildings under one mark of a picture. */
export interface MapMark {
  /** Degrees; beyond 180 where the bounds are. */
  readonly longitude: number;
  readonly latitude: number;
  /** Place in `tiers`: the foremost among them. */
  readonly tier: number;
  readonly n: number;
}

type Placed = Pick<Frame, 'longitude' | 'latitude' | 'tier'>;

/** Cells across the wider side of the bounds: marks closer than that would hide one another. */
const cellsAcross = 64;

interface Cell {
  x: number;
  y: number;
  n: number;
  tier: number;
}

/**
 * One mark a cell of the bounds, at the mean place of its buildings: those on one spot or in one town share theirs. The
 * foremost tier comes last, so that it lies on top.
 */
export function marksOf(
  { longitude, latitude, tier }: Placed,
  shown: Int32Array,
  bounds: Bounds,
): MapMark[] {
  const side = Math.max(bounds.east - bounds.west, bounds.north - bounds.south) / cellsAcross || 1;
  const cells = new Map<number, Cell>();
  for (const b of shown) {
    const [given, y] = [longitude[b]!, latitude[b]!];
    if (Number.isNaN(given + y)) continue;
    const x = given < bounds.west ? given + 360 : given;
    const key =
      Math.floor((x - bounds.west) / side) * 2 * cellsAcross +
      Math.floor((y - bounds.south) / side);
    const cell = cells.get(key) ?? { x: 0, y: 0, n: 0, tier: tier[b]! };
    cell.x += x;
    cell.y += y;
    cell.n += 1;
    cell.tier = Math.min(cell.tier, tier[b]!);
    cells.set(key, cell);
  }
  return Array.from(cells.values(), ({ x, y, n, tier }) => ({
    longitude: x / n,
    latitude: y / n,
    tier,
    n,
  })).sort((a, b) => b.tier - a.tier);
}

/** Side of a mark, units of the picture: the more buildings the larger, ten times as many by the same step. */
export const markSide = (n: number): number => 7.5 + 2.5 * Math.min(4, Math.log10(n));
