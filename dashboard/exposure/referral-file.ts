import { type Columns, cell as valueAt } from '../../analysis/columns.ts';
import { csvText } from '../../analysis/export/csv-text.ts';
import { theirNames } from '../../analysis/export/out-table.ts';
import type { Referral, ReferralRequest } from '../../analysis/exposure/referral.ts';
import { outputName, outputRow } from '../../analysis/rank/output.ts';
import { inUnits, type QuantityName } from '../../analysis/units.ts';
import { reasonIn } from '../parts/reason.ts';
import type { RankRow } from '../state/rows.ts';
import type { Told } from './pivot-file.ts';
import { whyWords } from './referral-words.ts';

interface OutColumn {
  readonly name: string;
  readonly quantity?: QuantityName;
}

/** The output columns of the contract, in its order. Their names and units are told while a row is put into them. */
function contractColumns(row: RankRow): readonly OutColumn[] {
  const columns: OutColumn[] = [];
  outputRow(row as Parameters<typeof outputRow>[0], 'metric', (column) => {
    columns.push(column);
    return column.name;
  });
  return columns;
}

/**
 * The referral list as CSV: why each building is on it, then the output columns of the contract in its order, the caution
 * last of them, the user's own columns, and the filter.
 * @param rows of `referral.ordinals`, in the same order
 * @param own the user's own columns of the same buildings, by heading
 */
export function referralCsv(
  referral: Pick<Referral, 'why'>,
  rows: readonly RankRow[],
  own: Columns,
  asked: ReferralRequest,
  { filter, units }: Told,
): string {
  const columns = rows[0] ? contractColumns(rows[0]) : [];
  const cell = (row: RankRow, { name, quantity }: OutColumn) => {
    if (name === 'reason') return reasonIn(row, units);
    const value = row[name] ?? null;
    return quantity && typeof value === 'number' ? inUnits(value, quantity, units) : value;
  };
  const heads = columns.map((column) => outputName(column, units));
  const theirs = Object.keys(own.cols);
  const lines = rows.map((row, i) => [
    whyWords(referral.why[i]!, row, asked),
    ...columns.map((column) => cell(row, column)),
    ...theirs.map((heading) => valueAt(own, heading, i)),
    filter || 'all lines',
  ]);
  const ours = ['referred_for', ...heads, 'filter'];
  const names = ours.toSpliced(-1, 0, ...theirNames(ours, theirs));
  return csvText([names, ...lines]);
}
