import type { Country } from './regions.ts';

/** Must stand wherever a place taken from a postal code is shown (licence CC-BY-4.0). */
export const postalAttribution =
  'Centres of US postal codes: GeoNames (geonames.org), CC BY 4.0, snapshot of 2017 from vega-datasets';

export interface Centroid {
  /** Degrees WGS 84, to 5 decimals. */
  readonly latitude: number;
  readonly longitude: number;
}

export interface PostalCentroids {
  readonly n: number;
  /** Centre of a US postal code as a user writes it (`98101`, `98101-1234`); null when it is not on the list. */
  find(code: string): Centroid | null;
}

const zip = /^(\d{5})(?:[ -]?\d{4})?$/;
const canadian = /^[ABCEGHJ-NPRSTVXY]\d[ABCEGHJ-NPRSTV-Z][ -]?\d[ABCEGHJ-NPRSTV-Z]\d$/i;

/** The five digits of a US postal code, or null. */
export const zipOf = (code: string): string | null => zip.exec(code)?.[1] ?? null;

/** The country whose postal codes are written this way: five or nine digits, or `A1A 1A1`; else null. */
export function postalCountry(code: string): Country | null {
  if (zip.test(code)) return 'US';
  return canadian.test(code) ? 'CA' : null;
}

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
  if (n === 0 || bytes.byteLength !== 4 + 12 * n) throw new Error('not a list of postal codes');
  const zips = new Uint32Array(bytes, 4, n);
  const latitudes = new Float32Array(bytes, 4 + 4 * n, n);
  const longitudes = new Float32Array(bytes, 4 + 8 * n, n);
  return {
    n,
    find(code) {
      const digits = zipOf(code);
      const i = digits === null ? -1 : positionOf(zips, Number(digits));
      if (i < 0) return null;
      return { latitude: rounded(latitudes[i]!), longitude: rounded(longitudes[i]!) };
    },
  };
}
