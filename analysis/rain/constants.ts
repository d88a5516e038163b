import text from '../../data/constants.csv?raw';

/** Names and values of data/constants.csv; its first two cells are never quoted. */
const values = new Map(
  [...text.matchAll(/^([a-z_0-9]+),([^,\r\n]+),/gm)].map((m) => [m[1]!, Number(m[2])] as const),
);

/** A number of data/constants.csv. Throws when it is not there: a mistake in our files. */
export function rainConstant(name: string): number {
  const value = values.get(name);
  if (value === undefined || Number.isNaN(value)) throw new Error(`no constant ${name}`);
  return value;
}
