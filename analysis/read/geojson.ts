import { cellsOf, isObject, namesOf, type Table } from './object-rows.ts';
import { Refusal, type Remark } from './outcome.ts';
import type { Cell, TypedRow } from './typed-rows.ts';

interface Feature {
  readonly properties: Record<string, unknown>;
  readonly geometry: unknown;
  readonly id: unknown;
}

export const isFeature = (value: unknown): boolean => isObject(value) && value.type === 'Feature';

/** Names of the coordinate system of GeoJSON (RFC 7946, 4), as older files write it out. */
const worldGeodetic = /(?:^|[:/])(?:CRS84h?|4326|4979)$|^WGS ?84$/i;

/** Older files may name another coordinate system (GeoJSON 2008, 3). */
function refuseOtherSystem(file: string, whole: unknown): void {
  if (!isObject(whole) || whole.crs === undefined || whole.crs === null) return;
  const properties =
    isObject(whole.crs) && isObject(whole.crs.properties) ? whole.crs.properties : {};
  const name = String(properties.name ?? properties.code ?? properties.href ?? 'not named');
  if (worldGeodetic.test(name)) return;
  throw new Refusal(
    file,
    `${file} has coordinates in another system (${name}), not degrees of WGS 84. Save it again in WGS 84 (EPSG:4326).`,
  );
}

function featureOf(file: string, value: unknown, i: number): Feature {
  if (!isObject(value) || value.type !== 'Feature')
    throw new Refusal(
      file,
      `Feature ${i + 1} of ${file} is none: it has no "type": "Feature". Export the file again.`,
    );
  const properties = isObject(value.properties) ? value.properties : {};
  return { properties, geometry: value.geometry ?? null, id: value.id };
}

type Position = readonly [longitude: number, latitude: number];

/** The one position of a geometry: of a point, or of several points that are one; null where there is none. */
function positionOf(geometry: unknown): Position | null {
  if (!isObject(geometry) || !Array.isArray(geometry.coordinates)) return null;
  const all: unknown =
    geometry.type === 'MultiPoint' ? geometry.coordinates : [geometry.coordinates];
  const isPoint = geometry.type === 'Point' || geometry.type === 'MultiPoint';
  if (!isPoint || !Array.isArray(all) || all.length !== 1 || !Array.isArray(all[0])) return null;
  const [longitude, latitude] = all[0] as unknown[];
  return typeof longitude === 'number' && typeof latitude === 'number'
    ? [longitude, latitude]
    : null;
}

const typeOf = (geometry: unknown): string =>
  isObject(geometry) ? String(geometry.type) : typeof geometry;

/** Why a feature has no place, if it has a geometry all the same. */
function remarkOn(file: string, row: number, geometry: unknown): Remark[] {
  if (geometry === null || positionOf(geometry)) return [];
  const value = typeOf(geometry);
  const message = `Row ${row} of ${file}: its geometry (${value}) is not one point, so it gives no coordinates. Save the building as a point.`;
  return [{ file, row, column: 'longitude', value, code: 'not-a-point', message }];
}

function refusePlaceless(file: string, features: readonly Feature[]): void {
  const shapes = features.filter(({ geometry }) => geometry !== null);
  if (shapes.length === 0 || shapes.some(({ geometry }) => positionOf(geometry))) return;
  const types = [...new Set(shapes.map(({ geometry }) => typeOf(geometry)))].slice(0, 5).join(', ');
  throw new Refusal(
    file,
    `${file} holds no points: its features are of the type ${types}. Save the buildings as points, for example the middle of each outline.`,
  );
}

/** A missing `crs` says degrees, but projected coordinates come without one too. */
function refuseProjected(file: string, features: readonly Feature[]): void {
  const positions = features.flatMap(({ geometry }) =>
    [positionOf(geometry) ?? []].filter((at) => at.length),
  );
  const outside = positions.filter(([x, y]) => Math.abs(x!) > 360 || Math.abs(y!) > 90);
  if (outside.length === 0 || outside.length < positions.length) return;
  throw new Refusal(
    file,
    `${file} has coordinates such as ${outside[0]!.join(', ')}, which are no degrees. Save it again in WGS 84 (EPSG:4326).`,
  );
}

/** A name that the columns do not have yet. */
const newName = (names: readonly string[], name: string, suffix: string): string =>
  names.includes(name) ? newName(names, `${name} (${suffix})`, suffix) : name;

/**
 * Features as a table: the feature's own id where it has one, its properties, and longitude and latitude of its point.
 * Properties of these two names are kept as `longitude (property)`. `whole` is the object that the features came in.
 */
export function pointRows(file: string, list: unknown, whole: unknown): Table {
  if (!Array.isArray(list) || list.length === 0)
    throw new Refusal(file, `${file} is GeoJSON without features. Choose another file.`);
  refuseOtherSystem(file, whole);
  const features = list.map((value, i) => featureOf(file, value, i));
  refusePlaceless(file, features);
  refuseProjected(file, features);
  const names = namesOf(
    file,
    features.map(({ properties }) => properties),
  );
  const placed = features.some(({ geometry }) => geometry !== null);
  const identified = features.some(({ id }) => id !== undefined && id !== null);
  const rows = features.map(({ properties, geometry, id }, i): TypedRow => {
    const cells = cellsOf(properties, names);
    const first: Cell[] = identified ? cellsOf({ id }, ['id']) : [];
    const place: readonly Cell[] = placed ? (positionOf(geometry) ?? ['', '']) : [];
    return {
      row: i + 2,
      cells: [...first, ...cells, ...place],
      remarks: remarkOn(file, i + 2, geometry),
    };
  });
  return { headings: headingsOf(names, identified, placed), rows, notes: [] };
}

function headingsOf(names: readonly string[], identified: boolean, placed: boolean): string[] {
  const kept = names.map((name) =>
    placed && ['longitude', 'latitude'].includes(name) ? newName(names, name, 'property') : name,
  );
  const first = identified ? [newName(names, 'id', 'feature')] : [];
  return [...first, ...kept, ...(placed ? ['longitude', 'latitude'] : [])];
}
