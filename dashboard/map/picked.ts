import type { FeatureCollection, Point } from 'geojson';
import type { Frame } from '../../analysis/session-types.ts';

/** Building ordinals that stand out from the rest. */
export interface Picked {
  readonly hovered: number | undefined;
  readonly selected: number | undefined;
}

type Placed = Pick<Frame, 'longitude' | 'latitude' | 'tier'>;

/** The hovered and the selected building as GeoJSON points with `state` and `tier`; one without a place is left out. */
export function pickedFeatures(frame: Placed, picked: Picked): FeatureCollection<Point> {
  const features = (['hovered', 'selected'] as const).flatMap((state) => {
    const b = picked[state];
    if (b === undefined) return [];
    const coordinates = [frame.longitude[b]!, frame.latitude[b]!];
    if (!coordinates.every(Number.isFinite)) return [];
    return [
      {
        type: 'Feature' as const,
        properties: { state, tier: frame.tier[b]! },
        geometry: { type: 'Point' as const, coordinates },
      },
    ];
  });
  return { type: 'FeatureCollection', features };
}
