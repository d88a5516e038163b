import { fold } from '../place/fold.ts';
import { isBlank, type TextReader, textReader } from '../read/cells.ts';
import { isNumeric, type TextKind } from '../read/schema.ts';
import { wordReader } from '../read/vocabulary.ts';
import { rulesOf } from './candidates.ts';
import type { ColumnMap, SheetSample, UnmatchedValue } from './column-map.ts';
import type { TableName } from './heading-names.ts';
import { guessReading } from './profile.ts';

const kinds: readonly string[] = ['vocabulary', 'yes_no', 'zone', 'currency'];

/** Reads the words of a column; null for columns that take any text, or numbers. */
function reader(table: TableName, column: string, decimalComma: boolean): TextReader | null {
  const rule = rulesOf[table].find(({ name }) => name === column);
  if (!rule || isNumeric(rule) || !kinds.includes(rule.kind)) return null;
  return textReader({ ...rule, kind: rule.kind as TextKind }, guessReading(decimalComma));
}

/** Words longer than this are no name of a material or the like. */
const longestRun = 6;

/**
 * What parts of a value mean, in its order, the longest parts first: `Stucco / Brick` holds stucco and anchored_brick,
 * `EIFS on steel stud` holds eifs. Offered, never decided: which of two claddings counts is not for a program to say.
 */
export function meaningsIn(value: string, column: string): readonly string[] {
  const read = wordReader(column);
  const words = fold(value.replace(/[+;:]/g, ' ')).split(' ').slice(0, 40);
  const found = new Set<string>();
  for (let at = 0; at < words.length; ) {
    let length = Math.min(longestRun, words.length - at);
    let meaning: string | null = null;
    for (; length > 0 && meaning === null; length -= 1) {
      meaning = read(words.slice(at, at + length).join(' '));
    }
    if (meaning !== null) found.add(meaning);
    at += meaning === null ? 1 : length + 1;
  }
  return [...found];
}

interface Unread {
  readonly column: string;
  readonly value: string;
  readonly vocabulary: boolean;
  rows: number;
}

const isVocabulary = (table: TableName, column: string): boolean =>
  rulesOf[table].find(({ name }) => name === column)?.kind === 'vocabulary';

/** Values of columns with a vocabulary that neither it nor the map's own words read, the most frequent first. */
export function unmatchedValues(sample: SheetSample, map: ColumnMap): UnmatchedValue[] {
  const unread = new Map<string, Unread>();
  map.columns.forEach(({ fills }, position) => {
    const read = fills && reader(fills.table, fills.column, sample.decimalComma);
    if (!read) return;
    const { table, column } = fills;
    const own = new Set(Object.keys(map.words[column] ?? {}).map(fold));
    for (const row of sample.rows) {
      const value = (row[position] ?? '').trim();
      if (isBlank(value) || read(value) !== null || own.has(fold(value))) continue;
      const key = `${column}\n${fold(value)}`;
      const known = unread.get(key);
      if (known) known.rows += 1;
      else unread.set(key, { column, value, rows: 1, vocabulary: isVocabulary(table, column) });
    }
  });
  return [...unread]
    .toSorted(([a, x], [b, y]) => y.rows - x.rows || (a < b ? -1 : 1))
    .map(([, { column, value, rows, vocabulary }]) => ({
      column,
      value,
      rows,
      meanings: vocabulary ? meaningsIn(value, column) : [],
    }));
}
