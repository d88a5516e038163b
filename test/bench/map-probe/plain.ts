import { Map as MapCanvas } from 'maplibre-gl';
import { indexOf } from '../../../analysis/rank/cents.ts';
import { tiers } from '../../../analysis/session-types.ts';
import { tierMarks } from '../../../dashboard/map/tier-marks.ts';
import type { Columns } from './columns.ts';

/** The same buildings as a plain GeoJSON source drawn as circles: what the sheet's own tiles are measured against. */
export async function plainMap(
  container: HTMLElement,
  data: GeoJSON.FeatureCollection,
): Promise<void> {
  const colours = tiers.flatMap((tier, t) => [t, tierMarks[tier].light]);
  const map = new MapCanvas({
    container,
    style: {
      version: 8,
      sources: { buildings: { type: 'geojson', data } },
      layers: [
        {
          id: 'buildings',
          type: 'circle',
          source: 'buildings',
          paint: {
            'circle-radius': 4,
            'circle-color': ['match', ['get', 'tier'], ...colours, '#000'] as never,
          },
        },
      ],
    },
    bounds: [-123, 29, -71, 49],
    fadeDuration: 0,
    attributionControl: false,
  });
  await map.once('idle');
  map.remove();
}

export function featuresOf({
  n,
  longitude,
  latitude,
  tier,
  cents,
}: Columns): GeoJSON.FeatureCollection {
  const features = Array.from({ length: n }, (_, b) => ({
    type: 'Feature' as const,
    id: b,
    properties: { tier: tier[b]!, index: indexOf(cents[b]!) },
    geometry: { type: 'Point' as const, coordinates: [longitude[b]!, latitude[b]!] },
  }));
  return { type: 'FeatureCollection', features };
}
