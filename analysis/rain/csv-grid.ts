import { csvBatches } from '../read/csv.ts';
import { type ByteSource, Refusal, type Remark } from '../read/outcome.ts';
import { type Grid, type RainGrid, rainOf } from './grid.ts';
import { type Layout, layoutOf } from './layout.ts';
import { gridOfNodes, type Nodes } from './nodes.ts';
import { factsOf, type GridQuantity, yearly } from './quantity.ts';

/** A user's grid and what was said about it. `rowsRead = accepted + setAside.length`; a raster's rows are its nodes. */
export interface GridFile {
  readonly grid: Grid;
  readonly rowsRead: number;
  readonly accepted: number;
  readonly setAside: readonly Remark[];
  /** Cells that could not be read and are taken as no data. */
  readonly noted: readonly Remark[];
  /** Heading of the column, or name of the variable, and the unit its values were given in. */
  readonly heading: string;
  readonly unit: string;
  /** Sentences on what had to be assumed. */
  readonly assumed: readonly string[];
}

/** The same of rain. */
export interface RainFile extends Omit<GridFile, 'grid'> {
  readonly grid: RainGrid;
}

export const rainFileOf = (file: GridFile): RainFile => ({ ...file, grid: rainOf(file.grid) });

/** Larger grids do not fit the memory of every browser: about twelve million nodes. */
const mostBytes = 300e6;
export const mostNodes = 12e6;

const noDataWords = new Set(['', 'na', 'n/a', 'nan', 'null', 'none', 'missing', '-', '--']);

const ranges = {
  longitude: [-180, 360],
  latitude: [-90, 90],
} as const;

function refuseLarge(file: string, bytes: number, nodes: number): void {
  if (bytes <= mostBytes && nodes <= mostNodes) return;
  throw new Refusal(
    file,
    `${file} is larger than ${mostBytes / 1e6} MB or ${mostNodes / 1e6} million rows. Cut the grid to the region of the buildings, or make it coarser.`,
  );
}

/** One row of the file, and its row number as a spreadsheet counts it. */
interface Line {
  readonly cells: readonly string[];
  readonly row: number;
  readonly decimalComma: boolean;
}

/** What has been gathered from the rows so far. */
interface Gathered {
  readonly file: string;
  readonly layout: Layout;
  readonly nodes: Nodes;
  readonly setAside: Remark[];
  readonly noted: Remark[];
}

const textAt = (line: Line, index: number): string => line.cells[index]?.trim() ?? '';

/** A cell as a number; a decimal comma where commas do not part the columns; NaN where it is none. */
function numberAt(line: Line, index: number): number {
  const text = textAt(line, index);
  if (text === '') return Number.NaN;
  const comma = line.decimalComma && /^[-+]?\d+,\d+$/.test(text);
  return Number(comma ? text.replace(',', '.') : text);
}

function refuseCell(
  { file }: Gathered,
  { row }: Line,
  column: string,
  value: string,
  advice: string,
): never {
  throw new Refusal(file, `Row ${row} of ${file} has ${value} under “${column}”. ${advice}`);
}

/** A coordinate of a row, degrees; null, with a remark, where it cannot be read. Out of range refuses the file. */
function coordinate(into: Gathered, line: Line, column: 'longitude' | 'latitude'): number | null {
  const value = textAt(line, into.layout[column]);
  const number = numberAt(line, into.layout[column]);
  const [from, to] = ranges[column];
  if (number >= from && number <= to) return number;
  if (!Number.isNaN(number)) {
    const advice = `A ${column} lies between ${from} and ${to} degrees: are the columns swapped?`;
    refuseCell(into, line, column, value, advice);
  }
  const what = value === '' ? 'is missing' : `“${value}” is not a number`;
  into.setAside.push({
    file: into.file,
    row: line.row,
    column,
    value,
    code: 'grid-coordinate',
    message: `The ${column} ${what}, so the row is left out. Give it in degrees.`,
  });
  return null;
}

/** The value of a row in the quantity's unit; NaN where there is none, with a remark where something else stands there. */
function cellValue(into: Gathered, line: Line): number {
  const { heading, index, unit } = into.layout.value;
  const { noun, least } = factsOf(into.layout.quantity);
  const value = textAt(line, index);
  const number = (numberAt(line, index) + unit.add) * yearly(unit);
  if (number < least) {
    const never = least === 0 ? 'negative' : `below ${least} ${factsOf(into.layout.quantity).unit}`;
    const advice = `${capital(noun)} is never ${never}. If that number means no data, leave the cell blank.`;
    refuseCell(into, line, heading, value, advice);
  }
  if (Number.isFinite(number)) return number;
  if (!noDataWords.has(value.toLowerCase())) {
    const message = `“${value}” is not a number: taken as no data.`;
    into.noted.push({
      file: into.file,
      row: line.row,
      column: heading,
      value,
      code: 'grid-value',
      message,
    });
  }
  return Number.NaN;
}

const capital = (noun: string): string => noun.charAt(0).toUpperCase() + noun.slice(1);

function take(into: Gathered, line: Line): void {
  const longitude = coordinate(into, line, 'longitude');
  const latitude = longitude === null ? null : coordinate(into, line, 'latitude');
  if (longitude === null || latitude === null) return;
  into.nodes.longitude.push(longitude);
  into.nodes.latitude.push(latitude);
  into.nodes.value.push(cellValue(into, line));
  into.nodes.row.push(line.row);
}

const nothingYet = (file: string, layout: Layout): Gathered => ({
  file,
  layout,
  nodes: { longitude: [], latitude: [], value: [], row: [] },
  setAside: [],
  noted: [],
});

/** Gathers all rows; the first is the heading row. */
async function gather(source: ByteSource, quantity: GridQuantity): Promise<Gathered> {
  const file = source.name;
  let into: Gathered | undefined;
  for await (const { records, rows, decimalComma } of csvBatches(source)) {
    records.forEach((cells, i) => {
      if (into) take(into, { cells, row: rows[i]!, decimalComma });
      else into = nothingYet(file, layoutOf(file, quantity, cells));
    });
    refuseLarge(file, 0, into?.nodes.row.length ?? 0);
  }
  if (into) return into;
  throw new Refusal(file, `${file} is empty.`);
}

/**
 * Reads a grid of the user's own from a CSV with longitude, latitude (degrees) and values, their unit in the heading.
 * One row a node, any order, nodes may be absent or blank, longitudes to 180 or to 360. What cannot be a grid is refused.
 */
export async function readGridCsv(
  source: ByteSource,
  quantity: GridQuantity,
  period = 'period not stated',
): Promise<GridFile> {
  const file = source.name;
  refuseLarge(file, source.size, 0);
  const { nodes, layout, setAside, noted } = await gather(source, quantity);
  const { heading, unit } = layout.value;
  if (nodes.value.every(Number.isNaN)) {
    throw new Refusal(
      file,
      `${file} has no ${factsOf(quantity).noun} in any row under “${heading}”. Choose a file with values.`,
    );
  }
  return {
    grid: gridOfNodes(file, nodes, `${file}, column ${heading}`, period),
    rowsRead: nodes.value.length + setAside.length,
    accepted: nodes.value.length,
    setAside,
    noted,
    heading,
    unit: unit.unit,
    assumed: [],
  };
}

/** Reads a rain grid of the user's own from a CSV. */
export const readRainCsv = async (source: ByteSource, period?: string): Promise<RainFile> =>
  rainFileOf(await readGridCsv(source, 'rain', period));
