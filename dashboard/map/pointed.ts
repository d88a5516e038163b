import type { Map as MapCanvas, MapGeoJSONFeature, Point, PointLike } from 'maplibre-gl';
import { beside } from './map-canvas.ts';

/** A mark on the canvas: of one building, or of several. */
export interface PointedMark {
  /** The building, or the heaviest of those under the mark. */
  readonly b: number;
  /** Buildings under the mark. */
  readonly n: number;
  /** Several only: zoom of the tile in which they share the mark, and its place, longitude and latitude. */
  readonly several?: { readonly z: number; readonly place: readonly [number, number] };
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
  const pointer = map.unproject([x, y]);
  const marks = map.queryRenderedFeatures(box, { layers: ['buildings'] }).map((feature) => {
    const place = placeOf(feature);
    const at = map.project(beside(pointer.lng, place));
    return { feature, place, distance: Math.hypot(at.x - x, at.y - y) };
  });
  const tier = (mark: (typeof marks)[number]) => Number(mark.feature.properties.tier);
  marks.sort((a, b) => a.distance - b.distance || tier(a) - tier(b));
  return marks[0] && markOf(marks[0].feature);
}

function placeOf({ geometry }: MapGeoJSONFeature): readonly [number, number] {
  const [longitude, latitude] = geometry.type === 'Point' ? geometry.coordinates : [];
  return [longitude ?? 0, latitude ?? 0];
}

function markOf(feature: MapGeoJSONFeature): PointedMark {
  const [b, n, z] = [feature.id, feature.properties.n, feature.properties.z].map(Number);
  const mark = { b: b!, n: n! };
  return n === 1 ? mark : { ...mark, several: { z: z!, place: placeOf(feature) } };
}

/** Tells of the mark under the pointer: once a frame, and not while the sheet slides under it. */
export function watchPointer(map: MapCanvas, tell: (mark: PointedMark | undefined) => void): void {
  let pointer: Point | undefined;
  let due = 0;
  const look = () => {
    due = 0;
    if (pointer && !map.isMoving()) tell(pointedAt(map, pointer));
  };
  map.on('mousemove', ({ point }) => {
    pointer = point;
    due ||= requestAnimationFrame(look);
  });
  map.on('mouseout', () => {
    pointer = undefined;
    tell(undefined);
  });
  map.on('remove', () => cancelAnimationFrame(due));
}
