import { epsgDefinition, refuseProjection, usable } from './projections.ts';

/** GeoTIFF keys by name (OGC GeoTIFF 1.1, 19-008r4). */
export type GeoKeys = Readonly<Record<string, unknown>>;

const userDefined = 32767;

/** Values of GTModelTypeGeoKey (19-008r4, 7.5.1). */
const model = { projected: 1, geographic: 2 } as const;

/** Parameters of a definition text and the keys that may hold each, first found first; lengths are in projected units. */
const parameters: readonly (readonly [name: string, keys: readonly string[]])[] = [
  ['lat_0', ['ProjNatOriginLatGeoKey', 'ProjFalseOriginLatGeoKey', 'ProjCenterLatGeoKey']],
  [
    'lon_0',
    [
      'ProjStraightVertPoleLongGeoKey',
      'ProjNatOriginLongGeoKey',
      'ProjFalseOriginLongGeoKey',
      'ProjCenterLongGeoKey',
    ],
  ],
  ['lat_1', ['ProjStdParallel1GeoKey']],
  ['lat_2', ['ProjStdParallel2GeoKey']],
  ['k_0', ['ProjScaleAtNatOriginGeoKey', 'ProjScaleAtCenterGeoKey']],
];

const falseOrigin: readonly (readonly [name: string, keys: readonly string[]])[] = [
  ['x_0', ['ProjFalseEastingGeoKey', 'ProjFalseOriginEastingGeoKey', 'ProjCenterEastingGeoKey']],
  ['y_0', ['ProjFalseNorthingGeoKey', 'ProjFalseOriginNorthingGeoKey', 'ProjCenterNorthingGeoKey']],
];

type Values = Readonly<Record<string, number>>;

type Mend = (values: Values) => Values;

/** The first standard parallel is where the scale is true. */
const trueScale: Mend = ({ lat_1, ...rest }) => ({ ...rest, lat_ts: lat_1 ?? 0 });

const asTheyAre: Mend = (values) => values;

/** One standard parallel: the origin's. */
const tangent: Mend = (values) => ({ ...values, lat_1: values.lat_0 ?? 0 });

/** The latitude of origin holds the parallel of true scale: the origin itself is the pole on its side. */
const polar: Mend = ({ lat_0 = 90, ...rest }) => ({
  ...rest,
  lat_ts: lat_0,
  lat_0: lat_0 < 0 ? -90 : 90,
});

/** Kinds of projection by ProjCoordTransGeoKey (19-008r4, annex C): name in a definition text, and what its parameters become. */
const kinds: ReadonlyMap<number, readonly [name: string, mend?: Mend]> = new Map<
  number,
  readonly [name: string, mend?: Mend]
>([
  [1, ['tmerc']],
  [7, ['merc', trueScale]],
  [8, ['lcc']],
  [9, ['lcc', tangent]],
  [10, ['laea']],
  [11, ['aea']],
  [12, ['aeqd']],
  [13, ['eqdc']],
  [14, ['stere']],
  [15, ['stere', polar]],
  [16, ['sterea']],
  [17, ['eqc', trueScale]],
  [18, ['cass']],
  [21, ['poly']],
  [22, ['robin']],
  [24, ['sinu']],
  [28, ['cea', trueScale]],
]);

/** Metres of a linear unit by its EPSG code. */
const metres: ReadonlyMap<number, number> = new Map([
  [9001, 1],
  [9002, 0.3048],
  [9003, 1200 / 3937],
  [9036, 1000],
]);

/** Ellipsoids by EPSG code. */
const ellipsoids: ReadonlyMap<number, string> = new Map([
  [7008, '+ellps=clrk66'],
  [7019, '+ellps=GRS80'],
  [7030, '+ellps=WGS84'],
  [7035, '+R=6371000'],
  [7052, '+R=6370997'],
]);

const number = (keys: GeoKeys, name: string): number | undefined => {
  const value = keys[name];
  return typeof value === 'number' ? value : undefined;
};

const first = (keys: GeoKeys, names: readonly string[]): number | undefined =>
  names.map((name) => number(keys, name)).find((value) => value !== undefined);

function valuesOf(keys: GeoKeys, table: typeof parameters, unit = 1): Values {
  const found = table.map(([name, names]) => [name, first(keys, names)] as const);
  return Object.fromEntries(
    found.flatMap(([name, value]) => (value === undefined ? [] : [[name, value * unit] as const])),
  );
}

/** Datum or ellipsoid as words of a definition text; undefined where the keys name none we know. */
async function figureOf(keys: GeoKeys): Promise<string | undefined> {
  const geographic = await epsgDefinition(number(keys, 'GeographicTypeGeoKey') ?? 0);
  if (geographic?.startsWith('+proj=longlat')) return geographic.replace('+proj=longlat ', '');
  const a = number(keys, 'GeogSemiMajorAxisGeoKey');
  const b = number(keys, 'GeogSemiMinorAxisGeoKey');
  const flattening = number(keys, 'GeogInvFlatteningGeoKey');
  if (a !== undefined && flattening) return `+a=${a} +rf=${flattening}`;
  if (a !== undefined) return `+a=${a} +b=${b ?? a}`;
  return ellipsoids.get(number(keys, 'GeogEllipsoidGeoKey') ?? 0);
}

const unitSize = (keys: GeoKeys): number =>
  number(keys, 'ProjLinearUnitSizeGeoKey') ??
  metres.get(number(keys, 'ProjLinearUnitsGeoKey') ?? 9001) ??
  Number.NaN;

/** The definition text that user-defined keys amount to. */
async function described(file: string, keys: GeoKeys): Promise<string> {
  const citation = String(keys.PCSCitationGeoKey ?? keys.GTCitationGeoKey ?? 'without a name');
  const kind = kinds.get(number(keys, 'ProjCoordTransGeoKey') ?? 0);
  const figure = await figureOf(keys);
  const unit = unitSize(keys);
  if (!kind || !figure || Number.isNaN(unit)) return refuseProjection(file, citation);
  const [name, mend = asTheyAre] = kind;
  // The library has no defaults for these.
  const values = {
    lat_0: 0,
    lon_0: 0,
    x_0: 0,
    y_0: 0,
    ...mend(valuesOf(keys, parameters)),
    ...valuesOf(keys, falseOrigin, unit),
  };
  const words = Object.entries(values).map(([key, value]) => `+${key}=${value}`);
  const definition = `+proj=${name} ${words.join(' ')} ${figure} +to_meter=${unit}`;
  return usable(file, definition, citation);
}

async function coded(file: string, code: number): Promise<string> {
  const definition = await epsgDefinition(code);
  if (definition === undefined) return refuseProjection(file, `EPSG:${code}`);
  return usable(file, definition, `EPSG:${code}`);
}

/** Degrees from Greenwich are all we take without a projection: 9102 is the degree, 8901 Greenwich. */
function refuseOddDegrees(file: string, keys: GeoKeys): void {
  const angle = number(keys, 'GeogAngularUnitsGeoKey') ?? 9102;
  const meridian = number(keys, 'GeogPrimeMeridianGeoKey') ?? 8901;
  if (angle !== 9102) refuseProjection(file, 'its angles are not in degrees');
  if (meridian !== 8901) refuseProjection(file, 'its longitudes do not count from Greenwich');
}

/**
 * The definition text of the map projection that GeoTIFF keys name; undefined for longitude and latitude. Throws a
 * `Refusal` for what is not known. Datums of longitude and latitude are not told apart: they differ by under 0.3 km.
 */
export async function projectionOf(file: string, keys: GeoKeys): Promise<string | undefined> {
  const kind = number(keys, 'GTModelTypeGeoKey');
  const code = number(keys, 'ProjectedCSTypeGeoKey');
  if (kind === model.geographic) {
    refuseOddDegrees(file, keys);
    return undefined;
  }
  if (kind !== model.projected) return refuseProjection(file, `GeoTIFF model type ${kind}`);
  return code === undefined || code === userDefined ? described(file, keys) : coded(file, code);
}
