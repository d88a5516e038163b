import type { FeatureCollection, Point } from 'geojson';
import type { PointedMark } from './pointed.ts';
import type { Places } from './tiles/messages.ts';

/** What stands out from the rest: the mark under the pointer, and the selected building. */
export interface Picked {
  readonly hovered: PointedMark | undefined;
  readonly selected: number | undefined;
}

type LonLat = readonly [longitude: number, latitude: number];

/** Where a building lies; undefined without a place. */
export function placeIn({ longitude, latitude }: Places, b: number): LonLat | undefined {
  const place = [longitude[b]!, latitude[b]!] as const;
  return place.every(Number.isFinite) ? place : undefined;
}

/**
 * The hovered mark and the selected building as GeoJSON points with `state`, `tier` and `n`, the buildings under the
 * mark; one without a place is left out.
 */
export function pickedFeatures(
  places: Places,
  tier: Uint8Array,
  { hovered, selected }: Picked,
): FeatureCollection<Point> {
  const point = (state: keyof Picked, mark: PointedMark | undefined) => {
    const place = mark && (mark.several?.place ?? placeIn(places, mark.b));
    if (!place) return [];
    const geometry = { type: 'Point' as const, coordinates: [...place] };
    const properties = { state, tier: tier[mark.b]!, n: mark.n };
    return [{ type: 'Feature' as const, properties, geometry }];
  };
  const features = [
    ...point('hovered', hovered),
    ...point('selected', selected === undefined ? undefined : { b: selected, n: 1 }),
  ];
  return { type: 'FeatureCollection', features };
}
