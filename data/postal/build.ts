import { nearBox } from '../../analysis/place/coordinates.ts';
import { findRegion } from '../../analysis/place/regions.ts';
import { readLines } from './lines.ts';
import { type PostalCode, radiiKm } from './radius.ts';

/**
 * The source places 51 codes of Honolulu at the middle of a chain of islands, 1,000 km out at sea. A code far outside
 * its own state is left out: no place is better than a wrong one.
 */
function codeOf(line: string): PostalCode[] {
  const [zip, lat, lon, city, state, ...county] = line.split(',');
  const latitude = Number(lat);
  const longitude = Number(lon);
  const region = findRegion(state!);
  if (region && !nearBox(region, latitude, longitude)) return [];
  const town = `${city}, ${state}`;
  return [{ zip: Number(zip), latitude, longitude, town, county: `${county.join()}, ${state}` }];
}

const readCodes = (): PostalCode[] =>
  readLines()
    .flatMap(codeOf)
    .sort((a, b) => a.zip - b.zip);

/**
 * Centres of US postal codes as one buffer, little-endian: count (Uint32), ZIP codes ascending (Uint32), latitudes and
 * longitudes (Float32, degrees), radii (Uint16, tenths of a km rounded up; an estimate, see `radiiKm`). Read by
 * `analysis/place/postal.ts`. Source: GeoNames, as packed in npm vega-datasets (`zipcodes.csv`, a snapshot of 2017),
 * CC-BY-4.0: `postalAttribution` must stand wherever the places are shown.
 */
export function buildPostal(): Uint8Array<ArrayBuffer> {
  const codes = readCodes();
  const n = codes.length;
  const bytes = new Uint8Array(4 + 14 * n);
  new Uint32Array(bytes.buffer, 0, 1)[0] = n;
  new Uint32Array(bytes.buffer, 4, n).set(codes.map(({ zip }) => zip));
  new Float32Array(bytes.buffer, 4 + 4 * n, n).set(codes.map(({ latitude }) => latitude));
  new Float32Array(bytes.buffer, 4 + 8 * n, n).set(codes.map(({ longitude }) => longitude));
  new Uint16Array(bytes.buffer, 4 + 12 * n, n).set(radiiKm(codes).map((km) => Math.ceil(10 * km)));
  return bytes;
}
