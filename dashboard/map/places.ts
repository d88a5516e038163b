import { csvParseRows } from 'd3';
import type { FeatureCollection, Point } from 'geojson';
import table from './places.csv?raw';

type PlaceKind = 'country' | 'region' | 'city';

/** A name written on the map. */
export interface Place {
  readonly name: string;
  readonly kind: PlaceKind;
  /** State, province or country that holds a city; country code for a region. */
  readonly region: string;
  readonly longitude: number;
  readonly latitude: number;
  /** 1 is written first and from the smallest scale on. */
  readonly rank: number;
}

/**
 * Names for the map, positions to about 0.1°. Provinces and some states: label points of Natural Earth 4.1 (public
 * domain); other states and all cities: from memory of atlases. The tests hold them against open data. Read as rows: d3's `csvParse` builds code from text, which the page's policy forbids.
 */
export const places: readonly Place[] = csvParseRows(table)
  .slice(1)
  .map(([name, kind, region, longitude, latitude, rank]) => ({
    name: name!,
    kind: kind as PlaceKind,
    region: region!,
    longitude: Number(longitude),
    latitude: Number(latitude),
    rank: Number(rank),
  }));

/** The same as GeoJSON points with `name`, `kind` and `rank`. */
export function placeFeatures(): FeatureCollection<Point> {
  return {
    type: 'FeatureCollection',
    features: places.map(({ name, kind, rank, longitude, latitude }) => ({
      type: 'Feature',
      properties: { name, kind, rank },
      geometry: { type: 'Point', coordinates: [longitude, latitude] },
    })),
  };
}
