import type { Column, NumberColumn, TextColumn } from '../columns.ts';

/** Columns that grow row by row, without an object a row. */
export interface Store {
  n: number;
  readonly columns: Column[];
}

const firstCapacity = 1024;

/** One empty column for each entry, of numbers where it is true. */
export const newStore = (numeric: readonly boolean[]): Store => ({
  n: 0,
  columns: numeric.map((isNumber) => (isNumber ? new Float64Array(firstCapacity) : [])),
});

function doubled(values: NumberColumn): NumberColumn {
  const longer = new Float64Array(2 * values.length);
  longer.set(values);
  return longer;
}

/** Puts a number into row `n`; `n` itself is advanced by the caller once the row is whole. */
export function putNumber(store: Store, column: number, value: number): void {
  let values = store.columns[column] as NumberColumn;
  if (store.n >= values.length) {
    values = doubled(values);
    store.columns[column] = values;
  }
  values[store.n] = value;
}

export function putText(store: Store, column: number, value: string | null): void {
  (store.columns[column] as TextColumn)[store.n] = value;
}

/** The column cut to the rows it holds. */
export function finished(store: Store, column: number): Column {
  const values = store.columns[column]!;
  return values instanceof Float64Array ? values.slice(0, store.n) : values;
}

/** Makes the store empty; texts handed out before stay as they are. */
export function empty(store: Store): void {
  store.n = 0;
  store.columns.forEach((column, i) => {
    if (!(column instanceof Float64Array)) store.columns[i] = [];
  });
}
