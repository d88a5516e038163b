import type { Batch } from './batch.ts';
import { readNumber } from './number-text.ts';

/** Rows among which the headings are looked for. */
const mostTitles = 20;
/** Rows from which the width of the table is told. */
const rowsSeen = 50;

const filled = (record: readonly string[]): string[] =>
  record.map((cell) => cell.trim()).filter((cell) => cell !== '');

const isNumber = (text: string): boolean => !Number.isNaN(readNumber(text, false));

/**
 * Place of the heading row: the first of the first twenty that fills at least three cells and at least half as many as
 * the fullest row does. What stands above it is a title only where the row found looks like headings, that is where at most
 * a quarter of it are numbers, and where a row follows; else the first row holds the headings.
 */
export function headingPlace(records: readonly (readonly string[])[]): number {
  const fullest = Math.max(0, ...records.slice(0, rowsSeen).map((row) => filled(row).length));
  const needed = Math.max(3, fullest / 2);
  const place = records.slice(0, mostTitles).findIndex((row) => filled(row).length >= needed);
  if (place < 1 || place === records.length - 1) return 0;
  const cells = filled(records[place]!);
  return cells.filter(isNumber).length * 4 <= cells.length ? place : 0;
}

const said = (file: string, titles: readonly (readonly string[])[], rows: readonly number[]) => {
  const words = filled(titles.flat()).join(' | ');
  const quoted = words.length > 120 ? `${words.slice(0, 119)}…` : words;
  return `The headings of ${file} stand in row ${rows[titles.length]}. ${titles.length === 1 ? 'The row above it is' : `The ${titles.length} rows above it are`} left out as a title: “${quoted}”.`;
};

const without = (batch: Batch, file: string, place: number): Batch => ({
  ...batch,
  records: batch.records.slice(place),
  rows: batch.rows.slice(place),
  torn: new Set([...batch.torn].map((at) => at - place).filter((at) => at >= 0)),
  notes: [...batch.notes, said(file, batch.records.slice(0, place), batch.rows)],
});

/** The same records from the heading row on, with a note on the titles above it. */
export async function* belowTitles(
  file: string,
  batches: AsyncIterable<Batch>,
): AsyncGenerator<Batch> {
  let begun = false;
  for await (const batch of batches) {
    const place = begun ? 0 : headingPlace(batch.records);
    begun = true;
    yield place === 0 ? batch : without(batch, file, place);
  }
}
