import type { Column, Columns } from '../columns.ts';
import { isBlank, numberReader, type Reading, textReader } from './cells.ts';
import { type Batch, csvBatches } from './csv.ts';
import { type ExtraColumn, matchHeadings } from './headings.ts';
import { type ByteSource, type ReadTable, Refusal, type Remark } from './outcome.ts';
import { boundOf, type ColumnRule, isNumeric, type Needs, type TextKind } from './schema.ts';
import { type Complaint, implausible, impossible, remark, unreadable } from './sentences.ts';
import { finished, newStore, putNumber, putText, type Store } from './store.ts';
import type { Watch } from './text-blocks.ts';

/** The row being read; its arrays are used again for every row. Indexed as the rules are. */
export interface RowInHand {
  row: number;
  /** Trimmed cells as written; '' where the column is absent. */
  readonly raw: string[];
  /** Texts read, null for no record; unused at numeric columns. */
  readonly text: (string | null)[];
  /** Numbers read, NaN for no record; unused at text columns. */
  readonly number: Float64Array;
  /** What will be noted if the row is accepted. */
  notes: Complaint[];
  /** The first number that sets the row aside, if any. */
  impossible: Complaint | null;
}

/** What differs between the building list and the cladding records. */
export interface TableForm {
  readonly rules: readonly ColumnRule[];
  readonly needs: Needs;
  /** Checks the row as a whole and fills its derived columns. What it returns sets the row aside. */
  readonly judge: (row: RowInHand) => Complaint | null;
}

export interface ReadOptions extends Watch {
  /** Year the analysis speaks for: the method has no clock. */
  readonly asOf: number;
}

type CellReader = (hand: RowInHand, value: string) => void;

interface StoredColumn {
  /** Place among the rules. */
  readonly index: number;
  /** Place in the record; −1 where the file has no such column. */
  readonly position: number;
  readonly numeric: boolean;
  readonly blank: (text: string) => boolean;
  readonly read: CellReader;
}

/** Everything known about a file once its heading row is read. */
interface Open {
  readonly file: string;
  readonly form: TableForm;
  readonly width: number;
  /** Rules whose columns are stored row by row: those present in the file and those the reader fills. */
  readonly stored: readonly StoredColumn[];
  readonly extras: readonly ExtraColumn[];
  readonly hand: RowInHand;
  readonly store: Store;
  readonly extraStore: Store;
  readonly setAside: Remark[];
  readonly noted: Remark[];
}

function numericCell(rule: ColumnRule, index: number, reading: Reading): CellReader {
  if (!isNumeric(rule)) throw new Error(`${rule.name} holds no numbers`);
  const read = numberReader(rule.kind, reading);
  const bounds = [rule.range, rule.aside].map((range) =>
    (range ?? [-Infinity, Infinity]).map((bound) => boundOf(bound, reading.asOf)),
  );
  const [[least, most], [low, high]] = bounds as [[number, number], [number, number]];
  return (hand, raw) => {
    const value = read(raw);
    const kept = value >= least && value <= most && value >= low && value <= high;
    hand.number[index] = kept ? value : Number.NaN;
    if (kept) return;
    if (Number.isNaN(value)) hand.notes.push(unreadable(rule, raw, reading.asOf));
    else if (value < low || value > high)
      hand.impossible ??= impossible(rule, raw, value, reading.asOf);
    else hand.notes.push(implausible(rule, raw, reading.asOf));
  };
}

function textCell(rule: ColumnRule, index: number, reading: Reading): CellReader {
  const read = textReader(rule as ColumnRule & { kind: TextKind }, reading);
  return (hand, raw) => {
    const value = read(raw);
    hand.text[index] = value;
    if (value === null) hand.notes.push(unreadable(rule, raw, reading.asOf));
  };
}

const newHand = (columns: number): RowInHand => ({
  row: 0,
  raw: new Array<string>(columns).fill(''),
  text: new Array<string | null>(columns).fill(null),
  number: new Float64Array(columns).fill(Number.NaN),
  notes: [],
  impossible: null,
});

/** A short code may look like a word for no record: UNK is an airport. */
const isNoIdentifier = (text: string): boolean => isBlank(text) && !/^[a-z]{2,3}$/i.test(text);

function open(file: string, batch: Batch, form: TableForm, asOf: number): Open {
  const headings = batch.records[0]!.map((cell) => cell.trim());
  const { positions, extras } = matchHeadings(file, headings, form.rules, form.needs);
  const reading = { asOf, decimalComma: batch.delimiter === ';' };
  const stored = form.rules.flatMap((rule, index): StoredColumn[] => {
    const position = positions[index]!;
    if (position < 0 && !rule.derived && !rule.completed) return [];
    const numeric = isNumeric(rule);
    return [
      {
        index,
        position,
        numeric,
        blank: rule.identifier ? isNoIdentifier : isBlank,
        read: (numeric ? numericCell : textCell)(rule, index, reading),
      },
    ];
  });
  return {
    file,
    form,
    width: headings.length,
    stored,
    extras,
    hand: newHand(form.rules.length),
    store: newStore([...form.rules.map(isNumeric), true]),
    extraStore: newStore(extras.map(() => false)),
    setAside: [],
    noted: [],
  };
}

function fill({ hand, stored }: Open, record: readonly string[]): void {
  if (hand.notes.length > 0) hand.notes = [];
  hand.impossible = null;
  for (const { index, position, numeric, blank, read } of stored) {
    const raw = position < 0 ? '' : (record[position] ?? '').trim();
    hand.raw[index] = raw;
    if (!blank(raw)) read(hand, raw);
    else if (numeric) hand.number[index] = Number.NaN;
    else hand.text[index] = null;
  }
}

/** Why a record is no row of this table, whatever its cells hold. */
function misshapen({ width }: Open, record: readonly string[], torn: boolean): Complaint | null {
  const cell = {
    column: '(whole row)',
    value: (record.find((text) => text.trim() !== '') ?? '').trim(),
  };
  if (torn) {
    const says =
      'a quotation mark inside a quoted cell made one row of several. Double the mark ("") or remove it, so that the rows part again.';
    return { ...cell, code: 'stray-quote', says };
  }
  if (record.length <= width || record.slice(width).every((text) => text.trim() === ''))
    return null;
  const says = `it has ${record.length} cells where there are ${width} headings. A cell that holds the delimiter needs quotation marks; correct the row so that its cells stand under their headings.`;
  return { ...cell, code: 'too-many-cells', says };
}

function accept(opened: Open, record: readonly string[]): void {
  const { file, form, stored, hand, extras, store, extraStore, noted } = opened;
  for (const { index, numeric } of stored) {
    if (numeric) putNumber(store, index, hand.number[index]!);
    else putText(store, index, hand.text[index]!);
  }
  putNumber(store, form.rules.length, hand.row);
  for (let i = 0; i < extras.length; i += 1) {
    putText(extraStore, i, record[extras[i]!.position]?.trim() || null);
  }
  store.n += 1;
  extraStore.n += 1;
  for (const note of hand.notes) noted.push(remark(file, hand.row, note));
}

function takeBatch(opened: Open, { records, rows, torn }: Batch, from: number): void {
  const { file, form, hand, setAside } = opened;
  for (let i = from; i < records.length; i += 1) {
    const record = records[i]!;
    hand.row = rows[i]!;
    fill(opened, record);
    const complaint = misshapen(opened, record, torn.has(i)) ?? form.judge(hand);
    if (complaint) setAside.push(remark(file, hand.row, complaint));
    else accept(opened, record);
  }
}

function tableOf({ form, stored, store }: Open): Columns {
  const { n } = store;
  const filled = new Set(stored.map(({ index }) => index));
  const noNumbers = new Float64Array(n).fill(Number.NaN);
  const noTexts = new Array<string | null>(n).fill(null);
  const columnOf = (rule: ColumnRule, index: number): Column => {
    if (filled.has(index)) return finished(store, index);
    return isNumeric(rule) ? noNumbers : noTexts;
  };
  const cols = form.rules.map((rule, index) => [rule.name, columnOf(rule, index)] as const);
  return { n, cols: Object.fromEntries([...cols, ['row', finished(store, form.rules.length)]]) };
}

/** Columns without a heading that hold nothing are what trailing delimiters leave behind: not columns. */
function extraOf({ extras, extraStore }: Open): Columns {
  const cols = extras
    .map(({ name, unnamed }, i) => ({ name, unnamed, column: finished(extraStore, i) }))
    .filter(({ unnamed, column }) => !unnamed || column.some((text) => text !== null));
  return {
    n: extraStore.n,
    cols: Object.fromEntries(cols.map(({ name, column }) => [name, column])),
  };
}

/**
 * Reads a CSV file as a table of the contract: `rowsRead = table.n + setAside.length`, always. Columns absent from the
 * file share one array of missing values, so copy before writing into one.
 * Throws a `Refusal` when the file cannot be read as such a table, the signal's reason when aborted.
 */
export async function readTable(
  source: ByteSource,
  form: TableForm,
  options: ReadOptions,
): Promise<ReadTable> {
  let opened: Open | undefined;
  for await (const batch of csvBatches(source, options)) {
    const from = opened ? 0 : 1;
    opened ??= open(source.name, batch, form, options.asOf);
    takeBatch(opened, batch, from);
  }
  const { store, setAside, noted } = opened!;
  const rowsRead = store.n + setAside.length;
  if (rowsRead === 0) {
    throw new Refusal(
      source.name,
      `${source.name} has headings but no rows below them. Choose another file.`,
    );
  }
  return {
    file: source.name,
    rowsRead,
    table: tableOf(opened!),
    extra: extraOf(opened!),
    setAside,
    noted,
  };
}
