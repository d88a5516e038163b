import { csvText } from './export/csv-text.ts';
import { looksLikeFormula } from './export/formula.ts';
import { type ByteSource, Refusal } from './read/outcome.ts';
import { recordBatches } from './read/records.ts';
import type { Edit, MarkedRemark, OfferedMend } from './session-types.ts';

/** The mends that the remarks offer, those of a kind together. */
export function offeredMends(remarks: readonly MarkedRemark[]): OfferedMend[] {
  const kinds = new Map<string, Edit[]>();
  for (const { mend, table, file, row, wall } of remarks) {
    if (!mend || !table) continue;
    const edits = kinds.get(mend.says) ?? [];
    kinds.set(mend.says, edits);
    for (const [column, value] of Object.entries(mend.cells)) {
      edits.push({ file, table, row, wall: wall ?? null, column, value });
    }
  }
  return [...kinds].map(([says, edits]) => ({ says, edits }));
}

/** Headings of a table of remarks. */
export const remarkHeads = [
  'file',
  'table',
  'row',
  'wall',
  'column',
  'value',
  'outcome',
  'reason',
  'correction',
];

/** A remark as a row of that table. */
export const remarkCells = (r: MarkedRemark): (string | number)[] => [
  r.file,
  r.table ?? '',
  r.row,
  r.wall ?? '',
  r.column,
  r.value,
  r.outcome,
  r.message,
  '',
];

/**
 * Remarks as CSV: rows set aside, and notes on rows kept. What is written under `correction` is read
 * back as an edit of that cell (`readCorrections`).
 */
export const remarksCsv = (remarks: readonly MarkedRemark[]): string =>
  csvText([remarkHeads, ...remarks.map(remarkCells)]);

/** Reads the corrections that a user wrote into a table of remarks. Throws a `Refusal` when it is none. */
export async function readCorrections(source: ByteSource): Promise<Edit[]> {
  const edits: Edit[] = [];
  let at: readonly number[] | undefined;
  for await (const { records } of recordBatches(source)) {
    for (const record of records) {
      if (at) edits.push(...editOf(at.map((i) => record[i]?.trim() ?? '')));
      else at = positions(source.name, record);
    }
  }
  if (edits.length === 0) {
    throw new Refusal(
      source.name,
      `${source.name} holds no correction. Write the right value under “correction” in the row of its remark.`,
    );
  }
  return edits;
}

const wanted = ['file', 'table', 'row', 'wall', 'column', 'correction'];

function positions(file: string, headings: readonly string[]): number[] {
  const names = headings.map((heading) => heading.trim().toLowerCase());
  const found = wanted.map((name) => names.indexOf(name));
  if (!found.includes(-1)) return found;
  throw new Refusal(
    file,
    `${file} is not a table of remarks as it is downloaded here: it needs the headings ${wanted.join(', ')}.`,
  );
}

function editOf(cells: readonly string[]): Edit[] {
  const [file, table, row, wall, column, correction] = cells as [
    string,
    string,
    string,
    string,
    string,
    string,
  ];
  // The apostrophe is what disarms a formula in a spreadsheet; it is no part of the value.
  const bare = correction.slice(1);
  const value = correction.startsWith("'") && looksLikeFormula(bare) ? bare : correction;
  if (value === '' || (table !== 'building' && table !== 'wall') || !/^\d+$/.test(row)) return [];
  return [{ file, table, row: Number(row), wall: wall || null, column, value }];
}
