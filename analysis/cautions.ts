import cautionsCsv from '../data/cautions.csv?raw';
import { csvTable } from './csv-table.ts';

/** The cautions of the method, in full: id, short, text, source. */
export const cautions: readonly Readonly<Record<string, string>>[] = csvTable(cautionsCsv);

/** The cautions as files carry them. */
export const cautionTexts: readonly string[] = cautions.map(
  ({ short, text }) => `${short} ${text}`,
);
