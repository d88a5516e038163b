import type { FileReport } from '../../analysis/session-types.ts';
import type { Marked } from '../parts/table-text.ts';

/** Everything said about rows and cells of the files, in the order of file and row. */
export const allRemarks = (files: readonly FileReport[]): readonly Marked[] =>
  files.flatMap((file) =>
    [
      ...file.setAside.map((remark): Marked => ({ ...remark, outcome: 'set aside' })),
      ...file.noted.map((remark): Marked => ({ ...remark, outcome: 'taken as no record' })),
    ].sort((a, b) => a.row - b.row),
  );

export type Outcome = Marked['outcome'] | 'any';

/** Remarks of one outcome that contain the words looked for, ignoring case. */
export function remarksMatching(
  remarks: readonly Marked[],
  outcome: Outcome,
  words: string,
): readonly Marked[] {
  const wanted = words.trim().toLowerCase();
  return remarks.filter(
    (r) =>
      (outcome === 'any' || r.outcome === outcome) &&
      (wanted === '' ||
        `${r.file} ${r.row} ${r.column} ${r.value} ${r.message}`.toLowerCase().includes(wanted)),
  );
}
