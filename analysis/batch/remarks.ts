import { type Columns, rowObject } from '../columns.ts';
import { remarkCells, remarkHeads } from '../corrections.ts';
import type { KeepingEngine } from '../engine/port.ts';
import { csvText } from '../export/csv-text.ts';
import type { MarkedRemark } from '../session-types.ts';

const inOrder = 'ORDER BY place, "row", kept, seq';

function markedRows(rows: Columns): MarkedRemark[] {
  return Array.from({ length: rows.n }, (_, i) => {
    const { kept, wall, ...remark } = rowObject(rows, i);
    const outcome = kept === 0 ? 'row set aside' : 'row kept';
    return { ...remark, ...(wall === null ? {} : { wall }), outcome } as unknown as MarkedRemark;
  });
}

const columns = 'file, "table", "row", wall, "column", value, message, code, kept';

/** Whether anything was said of the files. */
export async function anyRemarks(engine: KeepingEngine): Promise<boolean> {
  const { n } = await engine.query(
    "SELECT 1 AS one FROM duckdb_tables() WHERE database_name = 'kept' AND table_name = 'remark'",
  );
  return n > 0;
}

/** All remarks in the order of file and row as CSV (`remarksCsv`), piece by piece. */
export async function* remarksText(engine: KeepingEngine): AsyncGenerator<string> {
  yield csvText([remarkHeads]);
  if (!(await anyRemarks(engine))) return;
  const text = `SELECT ${columns} FROM kept.remark ${inOrder}`;
  for await (const rows of engine.stream(text)) yield csvText(markedRows(rows).map(remarkCells));
}

/** The first remarks of every table that was read. */
export async function firstRemarks(engine: KeepingEngine, most: number): Promise<MarkedRemark[]> {
  if (!(await anyRemarks(engine))) return [];
  const text = `SELECT ${columns} FROM kept.remark
    QUALIFY row_number() OVER (PARTITION BY place ${inOrder}) <= ? ${inOrder}`;
  return markedRows(await engine.query(text, [most]));
}

/** The commonest reason for which rows of a table were set aside, how often it was met, and the first such sentence. */
export async function commonestReason(
  engine: KeepingEngine,
  place: number,
): Promise<{ readonly times: number; readonly example: string }> {
  const found = await engine.query(
    `SELECT count(*) AS times, arg_min(message, seq) AS example, min(seq) AS first
    FROM kept.remark WHERE place = ? AND kept = 0 GROUP BY code ORDER BY times DESC, first LIMIT 1`,
    [place],
  );
  const { times, example } = rowObject(found, 0);
  return { times: Number(times), example: `${example}` };
}
