import type { Column, Columns } from '../columns.ts';
import { type Engine, identifier } from './port.ts';

/**
 * Loads a record of which most columns may hold nothing: those are not stored row by row. `table` becomes a view over
 * `<table>_filled`, with every column, in order.
 */
export async function loadRecord(
  engine: Engine,
  table: string,
  { n, cols }: Columns,
): Promise<void> {
  const columns = Object.entries(cols);
  const filled = columns.filter(([, column]) => n === 0 || isFilled(column));
  const known = new Set(filled.map(([name]) => name));
  const stored = `${table}_filled`;
  await engine.load(stored, { n, cols: Object.fromEntries(filled) });
  const heads = columns.map(([name, column]) =>
    known.has(name) ? identifier(name) : `CAST(NULL AS ${typeOf(column)}) AS ${identifier(name)}`,
  );
  await engine.query(
    `CREATE OR REPLACE VIEW ${identifier(table)} AS SELECT ${heads.join(', ')} FROM ${identifier(stored)}`,
  );
}

const typeOf = (column: Column): string => (column instanceof Float64Array ? 'DOUBLE' : 'VARCHAR');

const isFilled = (column: Column): boolean =>
  column instanceof Float64Array
    ? column.some((value) => !Number.isNaN(value))
    : column.some((value) => value !== null);
