import { haversineKm } from '../rain/great-circle.ts';
import { type Country, findRegion, type Region } from './regions.ts';

/** Must stand wherever a place taken from a postal code is shown (licence CC-BY-4.0). */
export const postalAttribution =
  'Centres of US postal codes: GeoNames (geonames.org), CC BY 4.0, snapshot of 2017 from vega-datasets';

export interface Centroid {
  /** Degrees WGS 84, to 5 decimals. */
  readonly latitude: number;
  readonly longitude: number;
}

/** Where the buildings of a postal code stand. */
export interface PostalArea extends Centroid {
  /** How far from the centre they may stand, km to 0.1: an estimate from the spacing of centres (data/postal/radius.ts). */
  readonly radiusKm: number;
}

export interface PostalCentroids {
  readonly n: number;
  /** Area of a US postal code as a user writes it (`98101`, `98101-1234`); null when it is not on the list. */
  find(code: string): PostalArea | null;
}

/** Least distance from the centre that contradicts a postal code, km, and how many radii are allowed in wide areas. */
const leastKm = 50;
const radii = 3;

/** Great-circle distance of a place from the centre of a postal area, km. */
export const kmFrom = (area: Centroid, latitude: number, longitude: number): number =>
  haversineKm(area.longitude, area.latitude, longitude, latitude);

/** Whether a building of that postal code may stand there: within max(50 km, 3 × the area's radius) of its centre. */
export const inReach = (area: PostalArea, latitude: number, longitude: number): boolean =>
  kmFrom(area, latitude, longitude) <= Math.max(leastKm, radii * area.radiusKm);

const zip = /^(\d{5})(?:[ -]?\d{4})?$/;
const canadian = /^[ABCEGHJ-NPRSTVXY]\d[ABCEGHJ-NPRSTV-Z][ -]?\d[ABCEGHJ-NPRSTV-Z]\d$/i;

/** The five digits of a US postal code, or null. */
export const zipOf = (code: string): string | null => zip.exec(code)?.[1] ?? null;

/** The country whose postal codes are written this way: five or nine digits, or `A1A 1A1`; else null. */
export function postalCountry(code: string): Country | null {
  if (zip.test(code)) return 'US';
  return canadian.test(code) ? 'CA' : null;
}

/** First letters of Canadian codes by province (Canada Post, from memory); X is shared by two territories. */
const provinces: Readonly<Record<string, string>> = {
  A: 'NL',
  B: 'NS',
  C: 'PE',
  E: 'NB',
  ...{ G: 'QC', H: 'QC', J: 'QC' },
  ...{ K: 'ON', L: 'ON', M: 'ON', N: 'ON', P: 'ON' },
  R: 'MB',
  S: 'SK',
  T: 'AB',
  V: 'BC',
  Y: 'YT',
};

/** The province that the first letter of a Canadian postal code names; null for other codes. */
export const provinceOf = (code: string): Region | null =>
  canadian.test(code) ? findRegion(provinces[code[0]!.toUpperCase()] ?? null) : null;

/** Position of `value` in ascending `sorted`, or −1. */
function positionOf(sorted: Uint32Array, value: number): number {
  let low = 0;
  let high = sorted.length - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const found = sorted[middle]!;
    if (found === value) return middle;
    if (found < value) low = middle + 1;
    else high = middle - 1;
  }
  return -1;
}

/** Float32 to the 5 decimals it can carry here, so that the digits shown are those of the list. */
const rounded = (degrees: number): number => Math.round(degrees * 1e5) / 1e5;

/** Reads the buffer of `data/postal/build.ts`. Throws when it is not one: a mistake in our files. */
export function postalCentroids(bytes: ArrayBuffer): PostalCentroids {
  const n = bytes.byteLength < 4 ? 0 : new Uint32Array(bytes, 0, 1)[0]!;
  if (n === 0 || bytes.byteLength !== 4 + 14 * n) throw new Error('not a list of postal codes');
  const zips = new Uint32Array(bytes, 4, n);
  const latitudes = new Float32Array(bytes, 4 + 4 * n, n);
  const longitudes = new Float32Array(bytes, 4 + 8 * n, n);
  const tenths = new Uint16Array(bytes, 4 + 12 * n, n);
  return {
    n,
    find(code) {
      const digits = zipOf(code);
      const i = digits === null ? -1 : positionOf(zips, Number(digits));
      if (i < 0) return null;
      return {
        latitude: rounded(latitudes[i]!),
        longitude: rounded(longitudes[i]!),
        radiusKm: tenths[i]! / 10,
      };
    },
  };
}
