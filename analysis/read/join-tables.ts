import { type Column, type Columns, numbers, texts } from '../columns.ts';
import type { ReadTable } from './outcome.ts';
import { type ColumnRule, isNumeric } from './schema.ts';

/** A table without rows that has every column of its rules, `row` and `file`. */
export const emptyTable = (rules: readonly ColumnRule[]): Columns => joined([], rules);

/** Tables of several files one below the other: the columns of the rules, `row`, and `file`, an index into the files. */
export function joined(reads: readonly ReadTable[], rules: readonly ColumnRule[]): Columns {
  const n = reads.reduce((sum, { table }) => sum + table.n, 0);
  const cols = rules.map(
    (rule) => [rule.name, below(reads, rule.name, isNumeric(rule), n)] as const,
  );
  const file = new Float64Array(n);
  let at = 0;
  for (const [i, { table }] of reads.entries()) {
    file.fill(i, at, at + table.n);
    at += table.n;
  }
  return { n, cols: { ...Object.fromEntries(cols), row: below(reads, 'row', true, n), file } };
}

function below(reads: readonly ReadTable[], name: string, numeric: boolean, n: number): Column {
  if (reads.length === 1) return reads[0]!.table.cols[name]!;
  if (!numeric) return reads.flatMap(({ table }) => texts(table, name));
  const all = new Float64Array(n);
  let at = 0;
  for (const { table } of reads) {
    all.set(numbers(table, name), at);
    at += table.n;
  }
  return all;
}
