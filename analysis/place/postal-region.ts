import csv from '../../data/postal/states.csv?raw';
import { csvTable } from '../csv-table.ts';
import { remembering } from './fold.ts';
import { provinceOf, zipOf } from './postal.ts';
import { findRegion, type Region } from './regions.ts';

interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly region: Region;
}

const stretches: readonly Stretch[] = csvTable(csv).map((row) => ({
  from: Number(row.from),
  to: Number(row.to),
  region: findRegion(row.region!)!,
}));

const stateOf = remembering((zip: string): Region | null => {
  const code = Number(zip);
  return stretches.find(({ from, to }) => from <= code && code <= to)?.region ?? null;
});

/**
 * The state or province that a postal code names: a US code that is listed or lies between listed codes of one state
 * (data/postal/states.csv), or a Canadian code by its first letter. Null for all others.
 */
export function regionOfCode(code: string): Region | null {
  const zip = zipOf(code);
  return zip === null ? provinceOf(code) : stateOf(zip);
}
