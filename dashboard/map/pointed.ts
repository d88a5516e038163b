import type { Map as MapCanvas, PointLike } from 'maplibre-gl';

/** A building's mark on the canvas. */
export interface PointedMark {
  /** The building, or the heaviest of those under the mark. */
  readonly b: number;
  /** Buildings under the mark. */
  readonly n: number;
}

/** How far from a mark's centre a pointer still means it, CSS pixels. */
const reach = 6;

/** The drawn mark nearest to a point of the canvas, within reach. */
export function pointedAt(
  map: MapCanvas,
  { x, y }: { readonly x: number; readonly y: number },
): PointedMark | undefined {
  if (!map.getLayer('buildings')) return undefined;
  const box: [PointLike, PointLike] = [
    [x - reach, y - reach],
    [x + reach, y + reach],
  ];
  const marks = map.queryRenderedFeatures(box, { layers: ['buildings'] }).map((feature) => {
    const { geometry, properties, id } = feature;
    const place = geometry.type === 'Point' ? geometry.coordinates : [0, 0];
    const at = map.project([place[0]!, place[1]!]);
    const distance = Math.hypot(at.x - x, at.y - y);
    return { b: Number(id), n: Number(properties.n), tier: Number(properties.tier), distance };
  });
  marks.sort((a, b) => a.distance - b.distance || a.tier - b.tier || a.b - b.b);
  return marks[0];
}
