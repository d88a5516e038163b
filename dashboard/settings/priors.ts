import { type ReferenceRow, referenceRows, referenceTables } from '../../analysis/reference.ts';
import type { SettingsChanges } from '../../analysis/settings.ts';
import { plainWord } from '../parts/words.ts';
import { pruned } from './changes.ts';

/** The priors that have weights. */
export const priorTables = referenceTables.filter(
  ({ file, rows }) => file.startsWith('priors/') && 'weight' in rows[0]!,
);

const shippedRows = (id: string): readonly ReferenceRow[] =>
  priorTables.find((table) => table.id === id)!.rows;

/** Columns that say which blank a row is about: under what conditions, and last the value it may be. */
export const keysOf = (rows: readonly ReferenceRow[]): readonly string[] =>
  Object.keys(rows[0] ?? {}).filter((name) => name !== 'weight' && name !== 'source');

/** These changes with one weight of a prior in another value; a prior as shipped is no change. */
export function withWeight(
  changes: SettingsChanges,
  id: string,
  row: number,
  weight: number,
): SettingsChanges {
  const rows = priorRows(changes, id).map((cells, i) =>
    i === row ? { ...cells, weight: `${weight}` } : cells,
  );
  const same = rows.every((cells, i) => cells.weight === shippedRows(id)[i]!.weight);
  return same
    ? withoutPrior(changes, id)
    : { ...changes, priors: { ...changes.priors, [id]: rows } };
}

/** These changes with the prior as it ships. */
export function withoutPrior(changes: SettingsChanges, id: string): SettingsChanges {
  const { [id]: _, ...rest } = changes.priors ?? {};
  return pruned({ ...changes, priors: rest });
}

/** The rows of a prior under these changes, in the order of the shipped table. */
export function priorRows(changes: SettingsChanges, id: string): readonly ReferenceRow[] {
  const shipped = shippedRows(id);
  const own = changes.priors?.[id] as readonly Record<string, unknown>[] | undefined;
  if (!own) return shipped;
  const keys = keysOf(shipped);
  return shipped.map((row) => {
    const mine = own.find((candidate) => keys.every((key) => `${candidate[key]}` === row[key]));
    return { ...row, weight: mine ? `${mine.weight}` : '0' };
  });
}

/** What each weight comes to, 0-1, among the rows under the same conditions; NaN where these weigh nothing. */
export function sharesOf(rows: readonly ReferenceRow[]): readonly number[] {
  const conditions = keysOf(rows).slice(0, -1);
  const group = (row: ReferenceRow): string => conditions.map((key) => row[key]).join('\n');
  const totals = new Map<string, number>();
  for (const row of rows) {
    totals.set(group(row), (totals.get(group(row)) ?? 0) + Number(row.weight));
  }
  return rows.map((row) => Number(row.weight) / totals.get(group(row))!);
}

const eras = new Map(referenceRows('prior_era').map(({ era, label }) => [era, label]));

/** A cell of a prior in words; eras are numbered in the table. */
export const cellWords = (key: string, value = ''): string =>
  (key === 'era' && eras.get(value)) || plainWord(value);
