import { type Column, type Columns, texts } from '../columns.ts';
import { identifier, type KeepingEngine } from '../engine/port.ts';
import type { Remark } from '../read/outcome.ts';
import { type ColumnRule, isNumeric } from '../read/schema.ts';
import type { MarkedRemark } from '../session-types.ts';
import { isWord, type Words } from './words.ts';

/** A table of accepted rows in the schema `kept`: `b`, the columns of the contract that its file fills, and `row`. */
export interface KeptTable {
  readonly name: string;
  readonly stored: readonly string[];
}

/** Rows as they are kept: codes in the place of words, and missing numbers NaN. */
export function keptColumns(
  { n, cols }: Columns,
  rules: readonly ColumnRule[],
  words: Words,
): Columns {
  const coded = (name: string, column: Column): Column => {
    const rule = rules.find((one) => one.name === name);
    return rule && isWord(rule) ? words.codes(texts({ n, cols }, name)) : column;
  };
  const entries = Object.entries(cols).map(
    ([name, column]) => [name, coded(name, column)] as const,
  );
  return { n, cols: Object.fromEntries(entries) };
}

/** The table of all words, once they are known. */
export const keepWords = (engine: KeepingEngine, words: Words): Promise<void> => {
  const word = words.list();
  const code = Float64Array.from(word, (_, i) => i);
  return engine.append('word', { n: word.length, cols: { code, word } });
};

/**
 * Select list and joins that give the rows of a kept table (`k`) every column of the contract again, in its order, with
 * NULL for no record.
 */
export function restored(
  { stored }: KeptTable,
  rules: readonly ColumnRule[],
): { readonly columns: string; readonly joins: string } {
  const columns: string[] = [];
  const joins: string[] = [];
  for (const rule of rules) {
    const name = identifier(rule.name);
    const numeric = isNumeric(rule);
    if (!stored.includes(rule.name)) {
      columns.push(`CAST(NULL AS ${numeric ? 'DOUBLE' : 'VARCHAR'}) AS ${name}`);
    } else if (numeric) {
      columns.push(`CASE WHEN NOT isnan(k.${name}) THEN k.${name} END AS ${name}`);
    } else if (isWord(rule)) {
      const of = identifier(`word_of_${rule.name}`);
      columns.push(`${of}.word AS ${name}`);
      joins.push(`LEFT JOIN kept.word ${of} ON ${of}.code = k.${name}`);
    } else columns.push(`k.${name}`);
  }
  return { columns: columns.join(', '), joins: joins.join(' ') };
}

/** Remarks of one table as they come, in the schema `kept`. */
export interface RemarkKeeper {
  readonly keep: (
    setAside: readonly Remark[],
    noted: readonly Remark[],
    table: MarkedRemark['table'],
    place: number,
  ) => Promise<void>;
}

/**
 * Keeps remarks with what puts them in order again: `place` of the table among those read, row, set aside before noted,
 * then as they came. `from` is the number of those kept before.
 */
export function remarkKeeper(engine: KeepingEngine, from = 0): RemarkKeeper {
  let seq = from;
  return {
    keep: async (setAside, noted, table, place) => {
      const all = [...setAside, ...noted];
      if (all.length === 0) return;
      const number = (of: (remark: Remark, i: number) => number) => Float64Array.from(all, of);
      const cols = {
        place: number(() => place),
        row: number(({ row }) => row),
        kept: number((_, i) => (i < setAside.length ? 0 : 1)),
        seq: number((_, i) => seq + i),
        file: all.map(({ file }) => file),
        table: all.map(() => table),
        wall: all.map(({ wall }) => wall ?? null),
        column: all.map(({ column }) => column),
        value: all.map(({ value }) => value),
        message: all.map(({ message }) => message),
        code: all.map(({ code }) => code),
      };
      seq += all.length;
      await engine.append('remark', { n: all.length, cols });
    },
  };
}
