import type { ReferenceRow } from './reference.ts';

/** Weight that every group of a user's prior comes to, so that its shares are kept to a millionth. */
const GROUP_TOTAL = 1_000_000;

/** Columns of a prior that name what is drawn and within what: all but weight and source. */
export const priorKeys = (row: ReferenceRow): string[] =>
  Object.keys(row).filter((name) => name !== 'weight' && name !== 'source');

/**
 * The group within which a row of a prior is drawn: all of its keys but the last, which is the value drawn. '' where the
 * whole table is one group.
 */
export const groupOf = (row: ReferenceRow): string =>
  priorKeys(row)
    .slice(0, -1)
    .map((key) => row[key])
    .join(', ');

/** Sum of the weights of each group. */
export function groupTotals(rows: readonly ReferenceRow[]): Map<string, number> {
  const totals = new Map<string, number>();
  for (const row of rows) {
    totals.set(groupOf(row), (totals.get(groupOf(row)) ?? 0) + Number(row.weight));
  }
  return totals;
}

/**
 * A prior whose groups all weigh alike, as those that ship do. A weight counts within its group alone: an era of which a
 * user counted more walls is not the likelier era. Every group needs a weight above 0.
 */
export function evenGroups(rows: readonly ReferenceRow[]): ReferenceRow[] {
  const totals = groupTotals(rows);
  return rows.map((row) => {
    const share = Number(row.weight) / totals.get(groupOf(row))!;
    return { ...row, weight: `${Math.round(share * GROUP_TOTAL)}` };
  });
}
