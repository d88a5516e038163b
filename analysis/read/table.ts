import type { Column, Columns } from '../columns.ts';
import type { Plan } from '../mapping/plan.ts';
import { contradictions } from './contradictions.ts';
import type { Batch } from './csv.ts';
import { type ByteSource, type ReadTable, Refusal, type Remark } from './outcome.ts';
import { recordBatches } from './records.ts';
import {
  fill,
  holds,
  newHand,
  type RowEdits,
  type RowInHand,
  type RowReader,
  rowReader,
} from './row.ts';
import { type ColumnRule, isNumeric } from './schema.ts';
import { type Complaint, remark } from './sentences.ts';
import { finished, newStore, putNumber, putText, type Store } from './store.ts';
import type { Watch } from './text-blocks.ts';

/** What becomes of a row: null accepts it, a complaint sets it aside, `joins` makes it one with an accepted row. */
export type Verdict = Complaint | { readonly joins: number } | null;

/** What differs between the building list and the cladding records. */
export interface TableForm {
  readonly rules: readonly ColumnRule[];
  /** Checks the row as a whole and fills its derived columns. */
  readonly judge: (row: RowInHand) => Verdict;
}

export interface ReadOptions extends Watch {
  /** Year the analysis speaks for: the method has no clock. */
  readonly asOf: number;
  /** The user's corrections of this file. */
  readonly edits?: RowEdits | undefined;
  /** The sheet of a workbook that is read; its first where absent. */
  readonly sheet?: string | undefined;
  /** Records after which reading stops, for a first look. */
  readonly limit?: number | undefined;
}

/** Everything known about a file once its heading row is read. */
export interface Open {
  readonly file: string;
  readonly form: TableForm;
  readonly width: number;
  /** Places of the rules whose columns are stored row by row. */
  readonly stored: readonly number[];
  readonly readers: readonly RowReader[];
  readonly edits: RowEdits;
  readonly hand: RowInHand;
  readonly store: Store;
  readonly extraStore: Store;
  readonly setAside: Remark[];
  readonly noted: Remark[];
  joined: number;
}

/** Columns that a plan fills, that the reader fills, and that the user has edited. */
function storedRules(form: TableForm, plans: readonly Plan[], edits: RowEdits): number[] {
  const edited = new Set([...edits.values()].flatMap((row) => row.map(({ column }) => column)));
  return form.rules.flatMap(({ name, derived, completed }, index) => {
    const filled = plans.some(({ cells }) => cells[index]);
    return filled || derived || completed || edited.has(name) ? [index] : [];
  });
}

function open(
  file: string,
  batch: Batch,
  form: TableForm,
  plans: readonly Plan[],
  { asOf, edits = new Map() }: ReadOptions,
): Open {
  const stored = storedRules(form, plans, edits);
  const reading = { asOf, decimalComma: batch.decimalComma };
  return {
    file,
    form,
    width: batch.records[0]!.length,
    stored,
    readers: plans.map((plan) => rowReader(form.rules, stored, plan, reading)),
    edits,
    hand: newHand(form.rules.length),
    store: newStore([...form.rules.map(isNumeric), true]),
    extraStore: newStore((plans[0]?.extras ?? []).map(() => false)),
    setAside: [],
    noted: [],
    joined: 0,
  };
}

/** The edited cells of a row by place among the rules; null where there are none. */
function editsOf({ edits, form }: Open, row: number, wall: string | null) {
  const cells = edits.get(row)?.filter((edit) => edit.wall === wall);
  if (!cells?.length) return null;
  return new Map(
    cells.map(({ column, value }) => [
      form.rules.findIndex(({ name }) => name === column),
      value.trim(),
    ]),
  );
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

const said = ({ file, hand }: Open, reader: RowReader, complaint: Complaint): Remark =>
  remark(file, hand.row, complaint, {
    wall: hand.wall,
    heading: reader.headings.get(complaint.column),
  });

function accept(opened: Open, reader: RowReader, record: readonly string[]): void {
  const { form, stored, hand, store, extraStore, noted } = opened;
  for (const index of stored) {
    if (isNumeric(form.rules[index]!)) putNumber(store, index, hand.number[index]!);
    else putText(store, index, hand.text[index]!);
  }
  putNumber(store, form.rules.length, hand.row);
  const { extras } = reader.plan;
  for (let i = 0; i < extras.length; i += 1) {
    putText(extraStore, i, record[extras[i]!.position]?.trim() || null);
  }
  store.n += 1;
  extraStore.n += 1;
  for (const note of hand.notes) noted.push(said(opened, reader, note));
}

function judge(opened: Open, reader: RowReader, record: readonly string[], torn: boolean): void {
  const { form, hand, setAside, noted, store } = opened;
  const verdict = misshapen(opened, record, torn) ?? form.judge(hand);
  if (verdict === null) accept(opened, reader, record);
  else if ('says' in verdict) setAside.push(said(opened, reader, verdict));
  else {
    opened.joined += 1;
    for (const note of contradictions(form.rules, store, hand, verdict.joins)) {
      noted.push(said(opened, reader, note));
    }
  }
}

function takeBatch(opened: Open, { records, rows, torn }: Batch, from: number, to: number): void {
  const { hand, readers, store } = opened;
  const anyEdits = opened.edits.size > 0;
  for (let i = from; i < to; i += 1) {
    const record = records[i]!;
    for (const reader of readers) {
      const edited = anyEdits ? editsOf(opened, rows[i]!, reader.plan.wall) : null;
      if (edited === null && !holds(reader, record)) continue;
      hand.row = rows[i]!;
      hand.place = store.n;
      fill(hand, reader, record, edited);
      judge(opened, reader, record, torn.has(i));
    }
  }
}

function tableOf({ form, stored, store }: Open): Columns {
  const { n } = store;
  const filled = new Set(stored);
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
function extraOf({ readers, extraStore }: Open): Columns {
  const cols = (readers[0]?.plan.extras ?? [])
    .map(({ name, unnamed }, i) => ({ name, unnamed, column: finished(extraStore, i) }))
    .filter(({ unnamed, column }) => !unnamed || column.some((text) => text !== null));
  return {
    n: extraStore.n,
    cols: Object.fromEntries(cols.map(({ name, column }) => [name, column])),
  };
}

interface Reading {
  readonly opened: Open;
  readonly records: number;
  readonly notes: readonly string[];
}

/** Reads a file to its end or to the limit; `after` is called after every batch of records. */
export async function reading(
  source: ByteSource,
  form: TableForm,
  plans: readonly Plan[],
  options: ReadOptions,
  after: (opened: Open) => Promise<void> | undefined = () => undefined,
): Promise<Reading> {
  let opened: Open | undefined;
  let records = -1;
  const notes: string[] = [];
  for await (const batch of recordBatches(source, options)) {
    const from = opened ? 0 : 1;
    opened ??= open(source.name, batch, form, plans, options);
    const wanted = (options.limit ?? Infinity) - records;
    notes.push(...batch.notes);
    opened.noted.push(...batch.remarks);
    takeBatch(opened, batch, from, Math.min(batch.records.length, wanted));
    records += Math.min(batch.records.length, wanted);
    await after(opened);
    if (records === options.limit) break;
  }
  if (records < 1) {
    throw new Refusal(
      source.name,
      `${source.name} has headings but no rows below them. Choose another file.`,
    );
  }
  return { opened: opened!, records, notes };
}

/**
 * Reads a file as a table of the contract by these plans: every record that holds such a row is accepted, set aside or
 * joined to an accepted row, `rowsRead = table.n + setAside.length + joined`, always. Columns absent from the file share
 * one array of missing values, so copy before writing into one.
 * Throws a `Refusal` when the file cannot be read as such a table, the signal's reason when aborted.
 */
export async function readTable(
  source: ByteSource,
  form: TableForm,
  plans: readonly Plan[],
  options: ReadOptions,
): Promise<ReadTable> {
  const { opened, records, notes } = await reading(source, form, plans, options);
  const { store, setAside, noted, joined } = opened;
  return {
    file: source.name,
    records,
    rowsRead: store.n + setAside.length + joined,
    joined,
    table: tableOf(opened),
    extra: extraOf(opened),
    setAside,
    noted,
    notes,
  };
}
