import exposureCsv from '../data/exposure_factor.csv?raw';
import eraCsv from '../data/priors/era.csv?raw';
import { csvTable } from './csv-table.ts';

/** From (inclusive) to below (exclusive); an open end is absent. */
export interface Band {
  readonly from?: number;
  readonly below?: number;
}

/** A band with the words that its table calls it by. */
export interface NamedBand extends Band {
  readonly label: string;
}

/** Steps of the exposure factor, m: buildings of one band take the same factor. */
export const heightBands: readonly Band[] = csvTable(exposureCsv).map(({ from_m, below_m }) => ({
  ...(from_m !== '0' && { from: Number(from_m) }),
  ...(below_m !== '' && { below: Number(below_m) }),
}));

/** Eras of the priors by the year in which the cladding was put up. */
export const eraBands: readonly NamedBand[] = csvTable(eraCsv).map(
  ({ label = '', from_year, to_year }) => ({
    label,
    ...(from_year !== '0' && { from: Number(from_year) }),
    ...(to_year !== '9999' && { below: Number(to_year) + 1 }),
  }),
);

/** The band of each value, −1 where there is no record. Bands ascend and the first is open below. */
export function bandsOf(values: Float64Array, bands: readonly Band[]): Int32Array {
  const from = bands.slice(1).map((band) => band.from ?? Number.NEGATIVE_INFINITY);
  const out = new Int32Array(values.length).fill(-1);
  for (let i = 0; i < out.length; i++) {
    const value = values[i]!;
    if (Number.isNaN(value)) continue;
    let band = 0;
    while (band < from.length && value >= from[band]!) band++;
    out[i] = band;
  }
  return out;
}
