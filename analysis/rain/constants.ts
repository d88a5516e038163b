import { shippedConstants } from '../constants.ts';

/** A number of data/constants.csv. Throws when it is not there: a mistake in our files. */
export function rainConstant(name: string): number {
  const value = shippedConstants[name];
  if (value === undefined || Number.isNaN(value)) throw new Error(`no constant ${name}`);
  return value;
}
