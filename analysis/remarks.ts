import { editsOf } from './edits.ts';
import type { Portfolio } from './inputs.ts';
import { filesOf } from './inputs.ts';
import { planOf } from './mapping/plan.ts';
import type { ByteSource } from './read/outcome.ts';
import { recordBatches } from './read/records.ts';
import { buildingColumns, wallColumns } from './read/schema.ts';
import type { Edit, MarkedRemark, RecordView, RemarkQuery } from './session-types.ts';

/** The remarks that match, and those of the window asked for. */
export function remarksMatching(
  all: readonly MarkedRemark[],
  { outcome, words = '', from, count }: RemarkQuery,
): { n: number; rows: MarkedRemark[] } {
  const wanted = words.trim().toLowerCase();
  const found = all.filter(
    (r) =>
      (!outcome || r.outcome === outcome) &&
      (wanted === '' ||
        `${r.file} ${r.row} ${r.column} ${r.value} ${r.message}`.toLowerCase().includes(wanted)),
  );
  return { n: found.length, rows: found.slice(from, from + count) };
}

/** The record at a row of a file, its cells as written; null where there is none. */
async function recordAt(
  source: ByteSource,
  row: number,
  sheet: string | undefined,
): Promise<readonly string[] | null> {
  for await (const { records, rows } of recordBatches(source, { sheet })) {
    const i = rows.indexOf(row);
    if (i >= 0) return records[i]!;
    if ((rows.at(-1) ?? 0) > row) return null;
  }
  return null;
}

const rulesOf = { building: buildingColumns, wall: wallColumns };

/** A record of a table file by columns of the contract, the user's corrections in place of what the file says. */
export async function recordView(
  { inputs, report }: Portfolio,
  file: string,
  table: Edit['table'],
  row: number,
  wall: string | null,
): Promise<RecordView | null> {
  const source = filesOf(inputs).find(({ name }) => name === file);
  const map = report.files.find((one) => one.file === file)?.map;
  const plan = map && planOf(map, table).find((one) => one.wall === wall);
  if (!source || !plan) return null;
  const record = await recordAt(source, row, inputs.sheets?.[file]?.sheet);
  if (!record) return null;
  const edits = editsOf(inputs.edits, file, table).get(row) ?? [];
  const cells = rulesOf[table].flatMap(({ name, derived }, i) => {
    if (derived) return [];
    const cell = plan.cells[i];
    const edit = edits.find((one) => one.column === name && one.wall === wall);
    const written = cell ? (cell.constant ?? record[cell.position] ?? '').trim() : '';
    const heading = cell && cell.position >= 0 ? cell.heading : null;
    return [{ column: name, heading, value: edit?.value ?? written, edited: edit !== undefined }];
  });
  return { file, row, cells };
}
