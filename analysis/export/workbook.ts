import { Zip, ZipDeflate } from 'fflate';
import { Refusal } from '../read/outcome.ts';
import { aboutRows } from './about-sheet.ts';
import { byteGatherer } from './bytes.ts';
import { type OutHead, type OutTable, type OutValue, rowBatches } from './out-table.ts';
import { columnLetters, fitted, format, rowXml } from './sheet-xml.ts';
import { sheetFoot, sheetHead, workbookParts } from './workbook-parts.ts';

const rowsAtOnce = 1_000;

/** Rows, the headings among them, and columns of a worksheet (Excel specifications and limits). */
const rowLimit = 1_048_576;
const columnLimit = 16_384;

/**
 * Written into every entry. Without a zone it is the same reading of the clock everywhere, which is what a ZIP holds:
 * the same ranking makes the same bytes.
 */
const mtime = '1980-01-01T12:00:00';

/**
 * An XLSX workbook: the sheet `ranking`, and `about` with the cautions and what made it. Written piece by piece, so that
 * the sheet's XML is never held whole. `about` is the text of the sidecar. Throws a `Refusal` where a sheet is too small.
 *
 * Put together here and not by a general writer of workbooks: those that run in a page start workers that its policy
 * forbids, stamp the time of day, and hold every text at once.
 */
export function workbookBytes(table: OutTable, about: string): Uint8Array<ArrayBuffer> {
  refuseTooLarge(table.n, table.heads.length);
  const file = byteGatherer();
  const zip = new Zip((failure, bytes) => {
    if (failure) throw failure;
    file.add(bytes);
  });
  for (const [path, xml] of Object.entries(workbookParts(['ranking', 'about']))) {
    addPart(zip, path, [xml]);
  }
  const cut = { cells: 0 };
  addPart(zip, 'xl/worksheets/sheet1.xml', rankingSheet(table, cut));
  addPart(zip, 'xl/worksheets/sheet2.xml', aboutSheet(about, cut));
  zip.end();
  return file.bytes();
}

/** Throws a `Refusal` where a sheet does not hold so many buildings and columns. */
export function refuseTooLarge(buildings: number, columns: number): void {
  if (buildings < rowLimit && columns <= columnLimit) return;
  throw new Refusal(
    'ranking.xlsx',
    `A sheet of a workbook holds ${rowLimit - 1} buildings and ${columnLimit} columns; this ranking has ${buildings} and ${columns}. Save it as CSV or Parquet.`,
  );
}

/** fflate's streaming Deflate goes wrong only where a stream begins with NUL characters; XML has none. */
function addPart(zip: Zip, path: string, pieces: Iterable<string>): void {
  const encoder = new TextEncoder();
  const part = new ZipDeflate(path);
  part.mtime = mtime;
  zip.add(part);
  for (const piece of pieces) part.push(encoder.encode(piece));
  part.push(new Uint8Array(0), true);
}

/** How many cells held more than a cell can. */
interface Cut {
  cells: number;
}

function* rankingSheet(table: OutTable, cut: Cut): Generator<string> {
  const letters = table.heads.map((_, i) => columnLetters(i));
  const counted = (value: OutValue): OutValue => {
    const cell = inCell(value);
    if (cell !== value) cut.cells += 1;
    return cell;
  };
  const names = table.heads.map(({ name }) => counted(name));
  yield sheetHead(table.heads.map(width)) + rowXml(names, 1, letters, format.heading);
  let at = 2;
  for (const rows of rowBatches(table, rowsAtOnce)) {
    yield rows.map((row) => rowXml(row.map(counted), at++, letters, format.plain)).join('');
  }
  yield sheetFoot;
}

function* aboutSheet(about: string, cut: Cut): Generator<string> {
  yield sheetHead([40, 110]);
  const style = (i: number) => (i === 0 ? format.heading : format.wrapped);
  yield aboutRows(about, cut.cells)
    .map((row, i) => rowXml(row.map(inCell), i + 1, ['A', 'B'], style(i)))
    .join('');
  yield sheetFoot;
}

const inCell = (value: OutValue): OutValue => (typeof value === 'string' ? fitted(value) : value);

const width = ({ name, kind }: OutHead): number => {
  if (name === 'reason') return 90;
  return kind === 'number' ? 14 : 24;
};
