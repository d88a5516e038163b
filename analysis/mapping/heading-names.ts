import csv from '../../data/heading_names.csv?raw';
import { csvTable } from '../csv-table.ts';
import { alternatives } from '../place/fold.ts';
import { buildingColumns, wallColumns } from '../read/schema.ts';
import { wordsIn } from './heading-words.ts';

/** A line of data/heading_names.csv. */
interface NameLine {
  readonly table: string;
  readonly column: string;
  readonly confidence: number;
  readonly names: readonly string[];
}

export const nameLines: readonly NameLine[] = csvTable<'table' | 'column' | 'confidence' | 'names'>(
  csv,
).map(({ table, column, confidence, names }) => ({
  table,
  column,
  confidence: Number(confidence),
  names: alternatives(names),
}));

const listOf = (table: string, column: string): ReadonlySet<string> =>
  new Set(
    nameLines
      .filter((line) => line.table === table && line.column === column)
      .flatMap(({ names }) => names.flatMap(wordsIn)),
  );

/** Words that change nothing in most headings, unless nothing else is left. */
const fillers = listOf('filler', 'any');
/** The same, but a name that has one needs it: an `elevation number` is no elevation. */
const surplusFillers = listOf('filler', 'more');
/** Words that change nothing beside the name of a wall. */
export const wallFillers = listOf('filler', 'group');
/** Words by which a heading speaks of something else, unless the name has them too. */
export const others = listOf('other', 'any');

export type TableName = 'building' | 'wall';

interface Name {
  readonly table: TableName;
  readonly column: string;
  readonly confidence: number;
  readonly words: readonly string[];
}

/** How well a heading names a column of the contract. */
export interface NameFit {
  readonly table: TableName;
  readonly column: string;
  /** 0 to 1, judgement. */
  readonly confidence: number;
}

const own = ([table, rules]: readonly [TableName, typeof buildingColumns]): Name[] =>
  rules
    .filter(({ derived }) => !derived)
    .map(({ name }) => ({ table, column: name, confidence: 0.97, words: wordsIn(name) }));

const names: readonly Name[] = [
  ...own(['building', buildingColumns]),
  ...own(['wall', wallColumns]),
  ...nameLines
    .filter(({ table }) => table === 'building' || table === 'wall')
    .flatMap((line) =>
      line.names.map((name) => ({
        table: line.table as TableName,
        column: line.column,
        confidence: line.confidence,
        words: wordsIn(name),
      })),
    ),
];

/** Names by each of their words, and by all of them written as one: a heading is compared only with those it may be. */
const byWord = new Map<string, Set<Name>>();
for (const name of names) {
  for (const word of [...name.words, name.words.join('')]) {
    byWord.set(word, (byWord.get(word) ?? new Set()).add(name));
  }
}

/** What a name loses, by judgement: words that change nothing more or less, each other word more. */
const losses = { fillers: 0.97, fillerMissing: 0.85, overlap: 0.9 };

const isFiller = (word: string): boolean => fillers.has(word);
const isSurplus = (word: string): boolean => fillers.has(word) || surplusFillers.has(word);

/** Share of the confidence of a name that a heading of these words deserves. */
function likeness(heading: readonly string[], name: readonly string[]): number {
  if (heading.join('') === name.join('')) return 1;
  const has = new Set(heading);
  const wants = new Set(name);
  const missing = [...wants].filter((word) => !has.has(word));
  const more = [...has].filter((word) => !wants.has(word));
  if (more.some((word) => others.has(word)) || !missing.every(isFiller)) return 0;
  const content = [...wants].filter((word) => !isSurplus(word)).length;
  if (content === 0) return 0;
  const strange = more.filter((word) => !isSurplus(word)).length;
  const overlap = strange === 0 ? 1 : (losses.overlap * content) / (content + strange);
  return losses.fillers * losses.fillerMissing ** missing.length * overlap;
}

/** The columns of the contract that these words of a heading may name, the best fit of each. */
export function namedBy(heading: readonly string[]): readonly NameFit[] {
  const candidates = new Set(
    [...heading, heading.join('')].flatMap((word) => [...(byWord.get(word) ?? [])]),
  );
  const best = new Map<string, NameFit>();
  for (const { table, column, confidence, words } of candidates) {
    const fit = { table, column, confidence: confidence * likeness(heading, words) };
    const key = `${table}.${column}`;
    if (fit.confidence > (best.get(key)?.confidence ?? 0)) best.set(key, fit);
  }
  return [...best.values()];
}
