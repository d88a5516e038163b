import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { nearBox } from '../../analysis/place/coordinates.ts';
import { findRegion } from '../../analysis/place/regions.ts';

type Centroid = readonly [zip: number, latitude: number, longitude: number];

/** Lines are zip_code, latitude, longitude, city, state, county; the first five cells are never quoted. */
function readLines(): string[] {
  const entry = createRequire(import.meta.url).resolve('vega-datasets');
  const text = readFileSync(join(dirname(entry), '../data/zipcodes.csv'), 'utf8');
  return text.trim().split('\n').slice(1);
}

/**
 * The source places 51 codes of Honolulu at the middle of a chain of islands, 1,000 km out at sea. A code far outside
 * its own state is left out: no place is better than a wrong one.
 */
function centroidOf(line: string): Centroid[] {
  const [zip, latitude, longitude, , state] = line.split(',');
  const region = findRegion(state!);
  const centroid: Centroid = [Number(zip), Number(latitude), Number(longitude)];
  return region && !nearBox(region, centroid[1], centroid[2]) ? [] : [centroid];
}

const readCentroids = (): Centroid[] =>
  readLines()
    .flatMap(centroidOf)
    .sort((a, b) => a[0] - b[0]);

/**
 * Centres of US postal codes as one buffer, little-endian: count (Uint32), ZIP codes ascending (Uint32), latitudes and
 * longitudes (Float32, degrees). Read by `analysis/place/postal.ts`. Source: GeoNames, as packed in npm vega-datasets
 * (`zipcodes.csv`, a snapshot of 2017), CC-BY-4.0: `postalAttribution` must stand wherever the places are shown.
 */
export function buildPostal(): Uint8Array<ArrayBuffer> {
  const centroids = readCentroids();
  const n = centroids.length;
  const bytes = new Uint8Array(4 + 12 * n);
  new Uint32Array(bytes.buffer, 0, 1)[0] = n;
  new Uint32Array(bytes.buffer, 4, n).set(centroids.map(([zip]) => zip));
  new Float32Array(bytes.buffer, 4 + 4 * n, n).set(centroids.map(([, latitude]) => latitude));
  new Float32Array(bytes.buffer, 4 + 8 * n, n).set(centroids.map(([, , longitude]) => longitude));
  return bytes;
}
