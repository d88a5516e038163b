import constantsCsv from '../data/constants.csv?raw';
import { csvTable } from './csv-table.ts';

/** Values of constants.csv by name. */
export type Constants = Readonly<Record<string, number>>;

/** The constants as they ship. */
export const shippedConstants: Constants = Object.fromEntries(
  csvTable<'name' | 'value'>(constantsCsv).map(({ name, value }) => [name, Number(value)]),
);

/** A constant under these changes, which are taken as they stand. */
export const constantUnder = (
  { constants }: { readonly constants?: Readonly<Record<string, unknown>> },
  name: string,
): number => Number(constants?.[name] ?? shippedConstants[name]);
