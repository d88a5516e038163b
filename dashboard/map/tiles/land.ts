import type { FeatureCollection, Geometry, Polygon, Position } from 'geojson';
import { feature, mesh } from 'topojson-client';
import type { GeometryCollection, Topology } from 'topojson-specification';
import { type Shape, shapeOf, sphereShape } from './shapes.ts';

/** What land is drawn from: world-atlas countries-50m, us-atlas states-10m, and `inland.geojson`. */
export interface LandSources {
  readonly countries: Topology<{ countries: GeometryCollection; land: GeometryCollection }>;
  readonly states: Topology<{ states: GeometryCollection }>;
  readonly inland: FeatureCollection;
}

/** `ocean` and `lake` are areas; the rest are lines. */
type LandKind = 'ocean' | 'lake' | 'coast' | 'country' | 'state' | 'province';

/** The ground of the sheet, lowest first: shapes with a `kind`. */
export function landShapes({ countries, states, inland }: LandSources): Shape[] {
  const rings = landRings(countries);
  const between = (a: unknown, b: unknown) => a !== b;
  return [
    onSphere('ocean', oceanAround(rings)),
    ...inland.features.map(shapeOf),
    onSphere('coast', { type: 'MultiLineString', coordinates: rings }),
    onSphere('country', mesh(countries, countries.objects.countries, between)),
    onSphere('state', mesh(states, states.objects.states, between)),
  ];
}

const onSphere = (kind: LandKind, geometry: Geometry): Shape => sphereShape({ kind }, geometry);

function landRings(countries: LandSources['countries']): Position[][] {
  const { features } = feature(countries, countries.objects.land);
  return features.flatMap(({ geometry }) => {
    if (geometry.type === 'Polygon') return geometry.coordinates;
    return geometry.type === 'MultiPolygon' ? geometry.coordinates.flat() : [];
  });
}

/**
 * The sphere with the land cut out, so that rain, painted beneath, shows on land only: on a sphere a ring run the other
 * way encloses all the rest.
 */
function oceanAround(landRings: readonly Position[][]): Polygon {
  return { type: 'Polygon', coordinates: landRings.map((ring) => ring.toReversed()) };
}
