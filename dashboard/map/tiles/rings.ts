import type { TilePoint } from './encode.ts';

export type Line = TilePoint[];

interface SizedRing {
  readonly ring: Line;
  /** Twice the area; positive when it runs clockwise on screen, as an outer ring of a vector tile does. */
  readonly size: number;
}

/**
 * Polygons of open rings that do not cross: each outer ring with the holes that lie in it, closed.
 * Rings may run either way as long as holes run against outer ones; the largest is an outer one and tells which.
 */
export function polygonsOf(rings: readonly Line[]): Line[][] {
  const sized = rings
    .map((ring) => ({ ring, size: signedArea(ring) }))
    .filter(({ size }) => size !== 0)
    .sort((a, b) => Math.abs(a.size) - Math.abs(b.size));
  const way = Math.sign(sized.at(-1)?.size ?? 1);
  const turned = ({ ring }: SizedRing) => closed(way > 0 ? ring : ring.toReversed());
  const outers = sized.filter(({ size }) => size * way > 0);
  const polygons = outers.map((outer) => [turned(outer)]);
  for (const hole of sized.filter(({ size }) => size * way < 0)) {
    const around = outers.findIndex(
      ({ ring, size }) => Math.abs(size) > Math.abs(hole.size) && contains(ring, hole.ring[0]!),
    );
    polygons[around]?.push(turned(hole));
  }
  return polygons;
}

const closed = (ring: Line): Line => [...ring, ring[0]!];

function signedArea(ring: Line): number {
  let sum = 0;
  let before = ring.at(-1)!;
  for (const point of ring) {
    sum += before.x * point.y - point.x * before.y;
    before = point;
  }
  return sum;
}

/** Whether a point lies in a ring, by the crossings of a ray. */
function contains(ring: Line, { x, y }: TilePoint): boolean {
  let inside = false;
  let a = ring.at(-1)!;
  for (const b of ring) {
    if (a.y > y !== b.y > y && x < ((b.x - a.x) * (y - a.y)) / (b.y - a.y) + a.x) inside = !inside;
    a = b;
  }
  return inside;
}
