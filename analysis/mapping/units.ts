import csv from '../../data/heading_units.csv?raw';
import { csvTable } from '../csv-table.ts';
import { alternatives, remembering } from '../place/fold.ts';
import { buildingColumns, wallColumns } from '../read/schema.ts';
import { wordsIn } from './heading-words.ts';

/** A unit in which files give a column: contract = number × factor + offset. */
export interface ColumnUnit {
  /** As kept in a column map, e.g. `ft`. */
  readonly unit: string;
  /** As the user reads it. */
  readonly label: string;
  readonly factor: number;
  readonly offset: number;
  /** Amounts of money: the currency that the unit names; else null. */
  readonly currency: string | null;
}

interface Spelt {
  readonly words: readonly string[];
  readonly unit: ColumnUnit;
}

/** `5/9` and `0.3048` alike: factors stand in the table as they are defined. */
function fraction(text: string): number {
  const [above, below = '1'] = text.split('/');
  return Number(above) / Number(below);
}

const lines = csvTable(csv).map((row) => ({
  contract: row.contract!,
  spellings: alternatives(row.spellings!).map(wordsIn),
  unit: {
    unit: row.unit!,
    label: row.label!,
    factor: fraction(row.factor!),
    offset: fraction(row.offset!),
    currency: row.currency || null,
  },
}));

const rules = new Map([...buildingColumns, ...wallColumns].map((rule) => [rule.name, rule]));

const linesOf = remembering((column: string) => {
  const rule = rules.get(column);
  const contract = rule?.kind === 'money' ? 'money' : rule?.unit;
  return contract ? lines.filter((line) => line.contract === contract) : [];
});

/** Units in which a column of the contract may be given, the contract's own first; none where there is no choice. */
export const unitsFor = remembering((column: string): readonly ColumnUnit[] =>
  linesOf(column).map(({ unit }) => unit),
);

/** The unit of a column by its name in a column map; null stands for the contract's own. Undefined where there is none such. */
export const unitNamed = (column: string, unit: string | null): ColumnUnit | undefined =>
  unit === null ? unitsFor(column)[0] : unitsFor(column).find((one) => one.unit === unit);

/** A number of a file in the unit of the contract. Throws when the column has no such unit: a mistake in our code. */
export function toContract(value: number, column: string, unit: string | null): number {
  const found = unitNamed(column, unit);
  if (!found && unit !== null) throw new Error(`${column} is not given in ${unit}`);
  return found ? value * found.factor + found.offset : value;
}

/** Spellings of the units of a column, the most words first, so that `thousand usd` is not read as `usd`. */
const spellingsOf = remembering((column: string): readonly Spelt[] =>
  linesOf(column)
    .flatMap(({ spellings, unit }) => spellings.map((words) => ({ words, unit })))
    .sort((a, b) => b.words.length - a.words.length),
);

/** Where the words stand in the heading, as late as can be, for units follow names; −1 where they do not. */
function lastIndexOf(heading: readonly string[], words: readonly string[]): number {
  for (let at = heading.length - words.length; at >= 0; at -= 1) {
    if (words.every((word, i) => heading[at + i] === word)) return at;
  }
  return -1;
}

/** The heading read without each unit of the column that its words may hold. */
export const withoutUnits = (
  heading: readonly string[],
  column: string,
): readonly { readonly unit: ColumnUnit; readonly rest: readonly string[] }[] =>
  spellingsOf(column).flatMap(({ words, unit }) => {
    const at = lastIndexOf(heading, words);
    if (at < 0) return [];
    return [{ unit, rest: [...heading.slice(0, at), ...heading.slice(at + words.length)] }];
  });

/** The unit of a column that these words are; null where they are none. */
export const unitSpelt = (words: readonly string[], column: string): ColumnUnit | null =>
  spellingsOf(column).find(
    (spelt) => spelt.words.length === words.length && lastIndexOf(words, spelt.words) === 0,
  )?.unit ?? null;
