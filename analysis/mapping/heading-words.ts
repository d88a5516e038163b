import csv from '../../data/heading_words.csv?raw';
import { csvTable } from '../csv-table.ts';
import { alternatives, fold } from '../place/fold.ts';

/** Abbreviations and spellings of words in headings and units, folded, to the word they are written out as. */
const writtenOut = new Map(
  csvTable<'word' | 'spellings'>(csv).flatMap(({ word, spellings }) =>
    alternatives(spellings).map((spelling) => [fold(spelling), word] as const),
  ),
);

/** Signs that stand for words, before folding takes them away: `Height (')`, `Bldg #`, `Zip.Code`, `m²`. */
const signs: readonly (readonly [RegExp, string])[] = [
  [/[([]\s*(?:"|″|”|'')\s*[)\]]/g, ' in '],
  [/[([]\s*['′’]\s*[)\]]/g, ' ft '],
  [/#/g, ' number '],
  [/%/g, ' percent '],
  [/°/g, ' deg '],
  [/(\p{Ll}|\d)(\p{Lu})/gu, '$1 $2'],
  [/(\p{Lu})(\p{Lu}\p{Ll})/gu, '$1 $2'],
  [/(\p{L}{2})\.(?=\S)/gu, '$1 '],
  [/([$€£])/g, ' $1 '],
  [/[:;?!*+=^~|\\<>{}[\]]/g, ' '],
];

const singular = (word: string): string =>
  /[a-z]{3}[^su\W]s$/.test(word) ? word.slice(0, -1) : word;

const wordOf = (word: string): string =>
  writtenOut.get(word) ?? writtenOut.get(singular(word)) ?? singular(word);

/**
 * The words of a heading in one form: camelCase and digits apart, folded, abbreviations written out, singular.
 * `BldgYrBlt#2` → building, year, blt, number, 2.
 */
export function wordsIn(heading: string): readonly string[] {
  const spaced = signs.reduce(
    (text, [sign, word]) => text.replace(sign, word),
    heading.normalize('NFKC'),
  );
  return fold(spaced)
    .replace(/(\d)(\p{L})/gu, '$1 $2')
    .replace(/(\p{L})(\d)/gu, '$1 $2')
    .split(' ')
    .filter((word) => word !== '')
    .map(wordOf);
}

/** The contract's own headings, compared whatever the case, a space or hyphen as good as an underscore. */
export const plainHeading = (heading: string): string =>
  heading
    .trim()
    .toLowerCase()
    .replace(/[\s-]+/g, '_');

/** Headings that say nothing: blank, or one that a program makes where there is none (`col3`, `Unnamed: 4`, `F7`). */
export const isSilent = (heading: string): boolean =>
  /^(?:(?:col(?:umn)?|field|f|c|v|x|var|unnamed|attr(?:ibute)?|__empty)[\s_:#.-]*\d*|\d*)$/i.test(
    heading.trim(),
  );
