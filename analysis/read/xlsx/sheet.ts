import { Refusal } from '../outcome.ts';
import type { Watch } from '../text-blocks.ts';
import type { Cell, TypedRow } from '../typed-rows.ts';
import { type Meaning, meant } from './formats.ts';
import { attribute, decoded, markupReader, unescaped } from './markup.ts';
import { damaged, type Zip } from './zip.ts';

/** What cells of a sheet refer to. */
export interface Lookup {
  readonly strings: readonly string[];
  readonly meanings: readonly Meaning[];
  readonly from1904: boolean;
}

/** The largest sheet there is (ECMA-376 part 1, 18.3.1.4 and .73), and cells that fit the memory of every browser. */
const mostRows = 1_048_576;
const mostColumns = 16_384;
const mostCells = 50e6;

/** Rows handed on together. */
const pieceRows = 1000;

interface Place {
  row: number;
  column: number;
}

/** The sheet as it is being read. */
interface Reading {
  readonly file: string;
  readonly lookup: Lookup;
  readonly rows: TypedRow[];
  cells: Cell[];
  readonly at: Place;
  cellCount: number;
  /** The open cell. */
  type: string;
  style: string | undefined;
  value: string | null;
  formula: boolean;
  /** Whether text between tags is the cell's, and whether it is a reading of it in another script. */
  inValue: boolean;
  inReading: boolean;
  /** Formulas without a result: how many, and the row of the first. */
  unsolved: { count: number; row: number };
  ended: boolean;
}

const refuseSize = (file: string, what: string): never => {
  throw new Refusal(
    file,
    `A sheet of ${file} has more than ${what}. Save it as CSV (UTF-8), or cut it to the rows and columns that are needed.`,
  );
};

/** Column of a reference such as `AB12`, from 1. */
function columnOf(reference: string): number {
  let column = 0;
  for (let i = 0; i < reference.length; i += 1) {
    const code = reference.charCodeAt(i) & 0xdf;
    if (code < 65 || code > 90) break;
    column = column * 26 + code - 64;
  }
  return column;
}

function openRow(reading: Reading, attributes: string): void {
  const row = Number(attribute(attributes, 'r') ?? reading.at.row + 1);
  if (!Number.isInteger(row) || row <= reading.at.row)
    throw damaged(reading.file, 'rows of a sheet are out of order');
  if (row > mostRows) refuseSize(reading.file, '1,048,576 rows');
  reading.at.row = row;
  reading.at.column = 0;
  reading.cells = [];
}

function openCell(reading: Reading, attributes: string): void {
  const reference = attribute(attributes, 'r');
  reading.at.column = reference ? columnOf(reference) : reading.at.column + 1;
  reading.type = attribute(attributes, 't') ?? 'n';
  reading.style = attribute(attributes, 's');
  reading.value = null;
  reading.formula = false;
}

/** The date of a cell that is written out; midnight is left out. */
const dateOf = (text: string): string => text.replace(/T00:00(?::00(?:\.0+)?)?Z?$/, '');

function numberCell({ lookup, style }: Reading, text: string): Cell {
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (!Number.isFinite(value)) return text;
  return meant(value, lookup.meanings[Number(style ?? 0)] ?? 'number', lookup.from1904);
}

function sharedCell({ file, lookup }: Reading, text: string): string {
  const shared = lookup.strings[Number(text)];
  if (shared === undefined) throw damaged(file, 'a cell points at a text that is not there');
  return shared;
}

/** Cells by their type (ECMA-376 part 1, 18.18.11); errors as they are shown. */
const cellReaders: Readonly<Record<string, (reading: Reading, text: string) => Cell>> = {
  n: numberCell,
  s: sharedCell,
  b: (_, text) => (text === '1' ? 'true' : text === '0' ? 'false' : text),
  d: (_, text) => dateOf(text),
  str: (_, text) => unescaped(text),
  inlineStr: (_, text) => unescaped(text),
  e: (_, text) => text,
};

function closeCell(reading: Reading): void {
  const { at, cells, value } = reading;
  if (reading.formula && !value) {
    if (reading.unsolved.count === 0) reading.unsolved.row = at.row;
    reading.unsolved.count += 1;
  }
  if (value === null || value === '') return;
  if (at.column < 1 || at.column > mostColumns) refuseSize(reading.file, '16,384 columns');
  reading.cellCount += Math.max(0, at.column - cells.length);
  if (reading.cellCount > mostCells) refuseSize(reading.file, '50 million cells');
  while (cells.length < at.column - 1) cells.push('');
  const read = cellReaders[reading.type] ?? ((_, text) => text);
  cells[at.column - 1] = read(reading, value);
}

function opened(reading: Reading, tag: string, attributes: string): void {
  if (tag === 'c') openCell(reading, attributes);
  else if (tag === 'v' || tag === 't') reading.inValue = true;
  else if (tag === 'row') openRow(reading, attributes);
  else if (tag === 'f') reading.formula = true;
  else if (tag === 'rPh') reading.inReading = true;
}

function closed(reading: Reading, tag: string): void {
  if (tag === 'c') closeCell(reading);
  else if (tag === 'v' || tag === 't') reading.inValue = false;
  else if (tag === 'row') reading.rows.push({ row: reading.at.row, cells: reading.cells });
  else if (tag === 'rPh') reading.inReading = false;
  else if (tag === 'sheetData') reading.ended = true;
}

const newReading = (file: string, lookup: Lookup): Reading => ({
  file,
  lookup,
  rows: [],
  cells: [],
  at: { row: 0, column: 0 },
  cellCount: 0,
  type: 'n',
  style: undefined,
  value: null,
  formula: false,
  inValue: false,
  inReading: false,
  unsolved: { count: 0, row: 0 },
  ended: false,
});

const unsolvedNote = (file: string, { count, row }: Reading['unsolved']): string =>
  `${count} cells of ${file} (the first in row ${row}) hold formulas whose results were never stored, and are read as empty. Open it in a spreadsheet program and save it, so that they are.`;

/** The rows of a sheet in pieces; blank ones may be among them. `notes` gets a sentence on formulas without results. */
export async function* sheetRows(
  zip: Zip,
  part: string,
  lookup: Lookup,
  watch: Watch,
  notes: string[],
): AsyncGenerator<readonly TypedRow[]> {
  const { file } = zip;
  const reading = newReading(file, lookup);
  const take = markupReader(
    {
      open: (tag, attributes) => {
        if (!reading.ended) opened(reading, tag, attributes);
      },
      close: (tag) => {
        if (!reading.ended) closed(reading, tag);
      },
      text: (raw) => {
        if (reading.inValue && !reading.inReading)
          reading.value = (reading.value ?? '') + decoded(raw);
      },
    },
    () => {
      throw damaged(file, 'a tag of a sheet never ends');
    },
  );
  for await (const piece of zip.pieces(part, watch)) {
    take(piece);
    while (reading.rows.length >= pieceRows) yield reading.rows.splice(0, pieceRows);
  }
  if (!reading.ended) throw damaged(file, 'a sheet has no end');
  if (reading.unsolved.count > 0) notes.push(unsolvedNote(file, reading.unsolved));
  yield reading.rows.splice(0);
}
