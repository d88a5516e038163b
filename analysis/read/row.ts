import { plainHeading } from '../mapping/heading-words.ts';
import type { Plan, PlannedCell } from '../mapping/plan.ts';
import { quantityReader } from '../mapping/quantity-text.ts';
import { fold } from '../place/fold.ts';
import { isBlank, type NumberReader, numberReader, type Reading, textReader } from './cells.ts';
import { boundOf, type ColumnRule, isNumeric, type NumberKind, type TextKind } from './schema.ts';
import { type Complaint, implausible, impossible, unreadable } from './sentences.ts';

/** The row being read; its arrays are used again for every row. Indexed as the rules are. */
export interface RowInHand {
  row: number;
  /** The place it takes among the accepted rows, if it is accepted. */
  place: number;
  /** The wall of the record that it describes, where a record describes several. */
  wall: string | null;
  /** Trimmed cells as written or as edited; '' where the column is absent. */
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

/** New text for a cell, written by the user in place of what the file says. */
export interface CellEdit {
  /** Of records that describe several walls: which; else null. */
  readonly wall: string | null;
  /** Column of the contract. */
  readonly column: string;
  readonly value: string;
}

/** Edits of one file and table by row. */
export type RowEdits = ReadonlyMap<number, readonly CellEdit[]>;

type CellReader = (hand: RowInHand, value: string) => void;

interface CellPlan {
  /** Place among the rules. */
  readonly index: number;
  /** Place in the record; −1 where the file has no such column. */
  readonly position: number;
  /** What stands for every row where the file has no such column. */
  readonly constant: string;
  readonly numeric: boolean;
  readonly blank: (text: string) => boolean;
  readonly read: CellReader;
}

/** Reads records of a file as rows of a table by one plan. */
export interface RowReader {
  readonly plan: Plan;
  readonly cells: readonly CellPlan[];
  /** Headings by column of the contract, where they differ from it: for sentences. */
  readonly headings: ReadonlyMap<string, string>;
}

/** Conversion factors are decimal fractions: to 1e-6, so that 45 ft are 13.716 m. Amounts of money are left as they are. */
const clean = (x: number): number => (Math.abs(x) < 1e9 ? Math.round(x * 1e6) / 1e6 : x);

/** Plain numbers go the short way; a cell that names its own unit, or writes feet and inches, the long one. */
function quantity(
  rule: ColumnRule & { kind: NumberKind },
  cell: PlannedCell | null,
  reading: Reading,
) {
  const { factor, offset, unit } = cell ?? { factor: 1, offset: 0, unit: null };
  const plain = numberReader(rule.kind, reading);
  const converts = factor !== 1 || offset !== 0;
  let other: NumberReader | undefined;
  return (raw: string): number => {
    const value = plain(raw);
    if (!Number.isNaN(value)) return converts ? clean(value * factor + offset) : value;
    other ??= quantityReader(rule, unit?.key ?? null, reading);
    return clean(other(raw));
  };
}

function numericCell(
  rule: ColumnRule,
  index: number,
  cell: PlannedCell | null,
  reading: Reading,
): CellReader {
  if (!isNumeric(rule)) throw new Error(`${rule.name} holds no numbers`);
  const unit = cell?.unit?.label ?? null;
  const read = quantity(rule, cell, reading);
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
      hand.impossible ??= impossible(rule, raw, value, reading.asOf, unit);
    else hand.notes.push(implausible(rule, raw, reading.asOf, unit));
  };
}

function textCell(
  rule: ColumnRule,
  index: number,
  cell: PlannedCell | null,
  reading: Reading,
): CellReader {
  const read = textReader(rule as ColumnRule & { kind: TextKind }, reading);
  const words = cell?.words;
  return (hand, raw) => {
    const own = words?.get(fold(raw));
    if (own !== undefined) {
      hand.text[index] = own;
      return;
    }
    const value = read(raw);
    hand.text[index] = value;
    if (value === null) hand.notes.push(unreadable(rule, raw, reading.asOf));
  };
}

export const newHand = (columns: number): RowInHand => ({
  row: 0,
  place: 0,
  wall: null,
  raw: new Array<string>(columns).fill(''),
  text: new Array<string | null>(columns).fill(null),
  number: new Float64Array(columns).fill(Number.NaN),
  notes: [],
  impossible: null,
});

/** A short code may look like a word for no record: UNK is an airport. */
const isNoIdentifier = (text: string): boolean => isBlank(text) && !/^[a-z]{2,3}$/i.test(text);

/** The reader of one plan; `stored` are the places of the rules whose columns are kept. */
export function rowReader(
  rules: readonly ColumnRule[],
  stored: readonly number[],
  plan: Plan,
  reading: Reading,
): RowReader {
  const cells = stored.map((index): CellPlan => {
    const rule = rules[index]!;
    const cell = plan.cells[index] ?? null;
    const numeric = isNumeric(rule);
    return {
      index,
      position: cell?.position ?? -1,
      constant: cell?.constant ?? '',
      numeric,
      blank: rule.identifier ? isNoIdentifier : isBlank,
      read: (numeric ? numericCell : textCell)(rule, index, cell, reading),
    };
  });
  const headings = rules.flatMap(({ name }, index): [string, string][] => {
    const heading = plan.cells[index]?.heading ?? name;
    return plainHeading(heading) === name || heading === '' ? [] : [[name, heading]];
  });
  return { plan, cells, headings: new Map(headings) };
}

const saysNothing = (text: string): boolean => isBlank(text) || /^0+(?:[.,]0*)?$/.test(text);

/** Whether a record has such a row at all: a building without a north wall, or with 0 m² of it, has no row for it. */
export const holds = ({ plan }: RowReader, record: readonly string[]): boolean =>
  plan.heldBy.length === 0 ||
  plan.heldBy.some((position) => !saysNothing(record[position]?.trim() ?? ''));

/** Reads a record into the hand, edited cells in place of what the file says. */
export function fill(
  hand: RowInHand,
  { cells, plan }: RowReader,
  record: readonly string[],
  edited: ReadonlyMap<number, string> | null,
): void {
  if (hand.notes.length > 0) hand.notes = [];
  hand.impossible = null;
  hand.wall = plan.wall;
  for (const { index, position, constant, numeric, blank, read } of cells) {
    const written = position < 0 ? constant : (record[position] ?? '').trim();
    const raw = edited?.get(index) ?? written;
    hand.raw[index] = raw;
    if (!blank(raw)) read(hand, raw);
    else if (numeric) hand.number[index] = Number.NaN;
    else hand.text[index] = null;
  }
}
