import { csvTable } from '../../analysis/csv-table.ts';
import termsCsv from '../../data/terms.csv?raw';

/** A word of the page that not every reader knows, and one or two sentences that say what is meant. */
interface Explained {
  readonly words: string;
  readonly text: string;
}

const terms = new Map<string, Explained>(
  csvTable<'term' | 'words' | 'text'>(termsCsv).map((row) => [row.term, row]),
);

/** The explanation under this key of data/terms.csv. Throws where there is none: a mistake in our code. */
export function explained(term: string): Explained {
  const found = terms.get(term);
  if (!found) throw new Error(`data/terms.csv does not explain ${term}`);
  return found;
}

const width = 320;
const gap = 8;

/** Where a note of a term stands, CSS pixels of the page: under its word, or over it in the lower part of the window. */
export function placeTerm(
  word: { readonly left: number; readonly top: number; readonly bottom: number },
  view: { readonly width: number; readonly height: number },
): { readonly left: number; readonly top: number; readonly side: 'under' | 'over' } {
  const left = Math.max(gap, Math.min(word.left, view.width - width - gap));
  const over = word.bottom > view.height * 0.7;
  return { left, top: over ? word.top - gap : word.bottom + gap, side: over ? 'over' : 'under' };
}
