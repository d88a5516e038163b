import Papa from 'papaparse';
import { type Batch, isBlankRecord, noRecords } from './batch.ts';
import { usesDecimalComma } from './decimal-comma.ts';
import { type Dialect, guessDialect } from './dialect.ts';
import { type ByteSource, Refusal } from './outcome.ts';
import { textBlocks, type Watch } from './text-blocks.ts';

export type { Batch } from './batch.ts';

/** Characters beyond which a record is not a row of a table. */
const recordLimit = 1_000_000;

/** Where reading stands: text not yet made into records, and the row it begins with. */
interface Progress {
  readonly file: string;
  readonly dialect: Dialect;
  readonly parser: InstanceType<typeof Papa.Parser>;
  rest: string;
  row: number;
  /** Known once the first records are. */
  decimalComma: boolean | undefined;
}

function start(file: string, beginning: string): Progress {
  const dialect = guessDialect(beginning);
  const parser = new Papa.Parser(dialect);
  return { file, dialect, parser, rest: '', row: 1, decimalComma: undefined };
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
  progress.decimalComma ??= usesDecimalComma(parsed.data, progress.dialect.delimiter === ';');
  const torn = tornRecords(parsed, progress.dialect.newline);
  const batch = {
    records: [] as string[][],
    rows: [] as number[],
    torn: new Set<number>(),
    decimalComma: progress.decimalComma,
    notes: [],
    remarks: [],
  };
  parsed.data.forEach((record, i) => {
    if (!isBlankRecord(record)) {
      if (torn.has(i)) batch.torn.add(batch.records.length);
      batch.records.push(record);
      batch.rows.push(progress.row);
    }
    progress.row += 1;
  });
  return batch;
}

/** Adds text. Where line ends are mixed, all become line feeds; one at the very end may still be half of a pair. */
function add(progress: Progress, text: string): void {
  progress.rest += text;
  if (!progress.dialect.mixedEnds) return;
  const end = progress.rest.length - (/\r*$/.exec(progress.rest.slice(-64))?.[0].length ?? 0);
  progress.rest = progress.rest.slice(0, end).replace(/\r+\n|\r/g, '\n') + progress.rest.slice(end);
}

/** The last record needs no line end of its own. What then remains is inside an open quotation mark. */
function takeLast(progress: Progress): Batch {
  add(progress, progress.dialect.newline);
  const batch = takeRecords(progress);
  if (progress.rest !== '') throw neverClosed(progress);
  return batch;
}

async function* allBatches(
  source: ByteSource,
  watch: Watch,
  say: (note: string) => void,
): AsyncGenerator<Batch> {
  let progress: Progress | undefined;
  for await (const block of textBlocks(source, watch, say)) {
    const begun = progress ?? start(source.name, block);
    add(begun, progress ? block : block.slice(begun.dialect.skip));
    progress = begun;
    yield takeRecords(progress);
    if (progress.rest.length > recordLimit) throw tooLong(progress);
  }
  if (progress && progress.rest !== '') yield takeLast(progress);
}

/**
 * The records of a CSV file of any common delimiter, quoting and line end, in UTF-8, UTF-16 or Windows-1252; the first
 * record is the heading row, or a title above it. Bytes are read as they come: no more than a block and one record is held,
 * and the pieces in which they come change nothing. Leaving the loop early closes the source.
 * Throws a `Refusal` when the bytes are no text, at a record over a million characters, at a quotation mark never closed, and
 * when there is no record at all; the signal's reason when aborted.
 */
export async function* csvBatches(source: ByteSource, watch: Watch = {}): AsyncGenerator<Batch> {
  let last: Batch | undefined;
  const notes: string[] = [];
  for await (const batch of allBatches(source, watch, (note) => notes.push(note))) {
    if (batch.records.length === 0) continue;
    last = { ...batch, notes: notes.splice(0) };
    yield last;
  }
  if (!last) {
    throw new Refusal(
      source.name,
      `${source.name} holds nothing but blank lines. Choose another file.`,
    );
  }
  if (notes.length > 0) yield { ...noRecords, decimalComma: last.decimalComma, notes };
}
