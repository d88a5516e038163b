import type { ByteSource } from '../read/outcome.ts';
import { recordBatches } from '../read/records.ts';
import type { Watch } from '../read/text-blocks.ts';
import type { SheetSample } from './column-map.ts';

/** Rows from which columns are guessed: enough to see what a column holds, few enough to be read at once. */
const sampleRows = 500;

export interface SheetOptions extends Watch {
  /** The sheet of a workbook that is read; its first where absent. */
  readonly sheet?: string | undefined;
}

/** The headings and the first rows of a file. Throws a `Refusal` when it is no table. */
export async function sampleSheet(
  source: ByteSource,
  options: SheetOptions = {},
): Promise<SheetSample> {
  let headings: string[] | undefined;
  let decimalComma = false;
  const rows: string[][] = [];
  for await (const batch of recordBatches(source, options)) {
    decimalComma = batch.decimalComma;
    for (const record of batch.records) {
      const cells = record.map((cell) => cell.trim());
      if (headings) rows.push(cells);
      else headings = cells;
      if (rows.length === sampleRows) break;
    }
    if (rows.length === sampleRows) break;
  }
  return { file: source.name, headings: headings ?? [], rows, decimalComma };
}
