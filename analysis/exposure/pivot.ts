import { grouped } from './levels.ts';
import { published, rolledUp, type SumTable, scopes, type Tally, tally } from './sums.ts';
import type { Crossing, CurrencyTotals, Dimension, ExposureColumns } from './types.ts';

/** One side of the pivot: the combinations of levels that occur, in order. */
interface Axis {
  readonly dimensions: readonly Dimension[];
  readonly n: number;
  /** Level of each entry, by dimension; −1 is no record. */
  readonly levels: readonly Int32Array[];
  readonly sums: SumTable;
}

/** Totals of the lines by rows and columns; cells in which no line lies are not there. */
export interface Pivot {
  readonly rows: Axis;
  readonly columns: Axis;
  readonly cells: {
    readonly row: Int32Array;
    readonly column: Int32Array;
    readonly sums: SumTable;
  };
  /** Of all lines: one group. */
  readonly total: SumTable;
}

/** The lines by rows and columns, values in one currency (a code; −1: no currency on record). */
export function pivotOf(
  columns: ExposureColumns,
  shown: Int32Array,
  by: { readonly rows: readonly Dimension[]; readonly columns: readonly Dimension[] },
  currency: number,
): Pivot {
  const across = by.columns.filter((dimension) => !by.rows.includes(dimension));
  const cells = grouped(columns, shown, [...by.rows, ...across]);
  const sums = tally(columns, shown, cells.of, cells.n, currency);
  const rows = entriesOf(cells.levels.slice(0, by.rows.length), cells.n);
  const cols = entriesOf(cells.levels.slice(by.rows.length), cells.n);
  return {
    rows: axis(by.rows, rows, sums),
    columns: axis(across, cols, sums),
    cells: { row: rows.of, column: cols.of, sums: published(sums) },
    total: published(rolledUp(sums, new Int32Array(cells.n), 1)),
  };
}

interface Entries {
  readonly n: number;
  /** Entry of each cell. */
  readonly of: Int32Array;
  readonly levels: readonly Int32Array[];
}

const axis = (dimensions: readonly Dimension[], entries: Entries, sums: Tally): Axis => ({
  dimensions,
  n: entries.n,
  levels: entries.levels,
  sums: published(rolledUp(sums, entries.of, entries.n)),
});

/** The distinct combinations of these levels among the cells, in the order of the levels, no record last. */
function entriesOf(levels: readonly Int32Array[], cells: number): Entries {
  const all = Array.from({ length: cells }, (_, cell) => levels.map((level) => level[cell]!));
  const names = all.map((combination) => combination.join());
  const distinct = [...new Map(all.map((combination, i) => [names[i]!, combination])).entries()];
  distinct.sort(([, a], [, b]) => compare(a, b));
  const place = new Map(distinct.map(([name], entry) => [name, entry]));
  return {
    n: distinct.length,
    of: Int32Array.from(names, (name) => place.get(name)!),
    levels: levels.map((_, d) => Int32Array.from(distinct, ([, combination]) => combination[d]!)),
  };
}

function compare(a: readonly number[], b: readonly number[]): number {
  const d = a.findIndex((level, i) => level !== b[i]);
  if (d < 0) return 0;
  if (a[d] === -1 || b[d] === -1) return a[d] === -1 ? 1 : -1;
  return a[d]! - b[d]!;
}

/** The full crossing for a file. Currency is always among its dimensions: values are never added across currencies. */
export function crossingOf(
  columns: ExposureColumns,
  shown: Int32Array,
  by: readonly Dimension[],
): Crossing {
  const dimensions: readonly Dimension[] = [...by.filter((d) => d !== 'currency'), 'currency'];
  const cells = grouped(columns, shown, dimensions);
  const sums = published(tally(columns, shown, cells.of, cells.n, 'own'));
  return { dimensions, levels: cells.levels, sums };
}

/** Totals by the currency in which values are written: a line without a value is in none. */
export function currencyTotals(columns: ExposureColumns, shown: Int32Array): CurrencyTotals {
  const valued = shown.filter((b) => !Number.isNaN(columns.insuredValue[b]!));
  const { n, of, levels } = grouped(columns, valued, ['currency']);
  const sums = tally(columns, valued, of, n, 'own');
  const lines = (group: number) => sums.lines[group * scopes.length]!;
  const order = Array.from({ length: n }, (_, group) => group).sort(
    (a, b) => lines(b) - lines(a) || a - b,
  );
  const place = Int32Array.from(order.keys(), (group) => order.indexOf(group));
  const words = columns.currency.words;
  return {
    currencies: order.map((group) => words[levels[0]![group]!] ?? null),
    sums: published(rolledUp(sums, place, n)),
  };
}
