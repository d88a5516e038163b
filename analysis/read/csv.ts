import Papa from 'papaparse';
import { type Dialect, guessDialect } from './dialect.ts';
import { type ByteSource, Refusal } from './outcome.ts';
import { textBlocks, type Watch } from './text-blocks.ts';

/** Some records of a file, in order. Blank lines are left out but counted in `rows`. */
export interface Batch {
  /** Cells of each record, untrimmed, as many as the record has. */
  readonly records: readonly string[][];
  /** Row of each record as a spreadsheet counts it: a record that spans lines is one row, a blank line is one too. */
  readonly rows: readonly number[];
  /** Positions in `records` where a stray quotation mark made one record of several lines. */
  readonly torn: ReadonlySet<number>;
  readonly delimiter: string;
}

/** Characters beyond which a record is not a row of a table. */
const recordLimit = 1_000_000;

/** Where reading stands: text not yet made into records, and the row it begins with. */
interface Progress {
  readonly file: string;
  readonly dialect: Dialect;
  readonly parser: InstanceType<typeof Papa.Parser>;
  rest: string;
  row: number;
}

const isBlankLine = (record: readonly string[]): boolean => {
  const first = record[0];
  if (first !== undefined && first.charCodeAt(0) > 32) return false;
  return record.every((cell) => cell.trim() === '');
};

function start(file: string, beginning: string): Progress {
  const dialect = guessDialect(beginning);
  const parser = new Papa.Parser(dialect);
  return { file, dialect, parser, rest: beginning.slice(dialect.skip), row: 1 };
}

const tooLong = ({ file, row }: Progress): Refusal =>
  new Refusal(
    file,
    `Row ${row} of ${file} is longer than 1,000,000 characters: a quotation mark in it was never closed, or the file is not a table. Correct that row, or choose another file.`,
  );

const neverClosed = ({ file, row }: Progress): Refusal =>
  new Refusal(
    file,
    `Row ${row} of ${file} opens a quotation mark that is never closed, so the rows after it cannot be told apart. Close or remove it.`,
  );

/** Records in which the parser met a quotation mark it could not explain and which then ran over a line end. */
const tornRecords = (
  parsed: ReturnType<Progress['parser']['parse']>,
  newline: string,
): Set<number> =>
  new Set(
    parsed.errors
      .filter(({ code }) => code === 'InvalidQuotes')
      .map(({ row }) => row ?? -1)
      .filter((i) => parsed.data[i]?.some((cell) => cell.trim().includes(newline))),
  );

/** Takes the complete records off the front of the text. */
function takeRecords(progress: Progress): Batch {
  const parsed = progress.parser.parse(progress.rest, 0, true);
  progress.rest = progress.rest.slice(parsed.meta.cursor);
  const torn = tornRecords(parsed, progress.dialect.newline);
  const { delimiter } = progress.dialect;
  const batch = {
    records: [] as string[][],
    rows: [] as number[],
    torn: new Set<number>(),
    delimiter,
  };
  parsed.data.forEach((record, i) => {
    if (!isBlankLine(record)) {
      if (torn.has(i)) batch.torn.add(batch.records.length);
      batch.records.push(record);
      batch.rows.push(progress.row);
    }
    progress.row += 1;
  });
  return batch;
}

/** The last record needs no line end of its own. What then remains is inside an open quotation mark. */
function takeLast(progress: Progress): Batch {
  progress.rest += progress.dialect.newline;
  const batch = takeRecords(progress);
  if (progress.rest !== '') throw neverClosed(progress);
  return batch;
}

async function* allBatches(source: ByteSource, watch: Watch): AsyncGenerator<Batch> {
  let progress: Progress | undefined;
  for await (const block of textBlocks(source, watch)) {
    if (progress) progress.rest += block;
    else progress = start(source.name, block);
    yield takeRecords(progress);
    if (progress.rest.length > recordLimit) throw tooLong(progress);
  }
  if (progress && progress.rest !== '') yield takeLast(progress);
}

/**
 * The records of a CSV file of any common delimiter, quoting and line end, in UTF-8 or UTF-16; the first record is the
 * heading row. Bytes are read as they come: no more than a block and one record is held, and the pieces in which they
 * come change nothing. Leaving the loop early closes the source.
 * Throws a `Refusal` when the bytes are no text, at a record over a million characters, at a quotation mark never closed, and
 * when there is no record at all; the signal's reason when aborted.
 */
export async function* csvBatches(source: ByteSource, watch: Watch = {}): AsyncGenerator<Batch> {
  let any = false;
  for await (const batch of allBatches(source, watch)) {
    if (batch.records.length === 0) continue;
    any = true;
    yield batch;
  }
  if (!any) {
    throw new Refusal(
      source.name,
      `${source.name} holds nothing but blank lines. Choose another file.`,
    );
  }
}
