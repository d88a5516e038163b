import { type ByteSource, Refusal } from '../../read/outcome.ts';
import type { GridFrame } from '../grid.ts';
import { type GridQuantity, yearly } from '../quantity.ts';
import { saveInDegrees } from './projections.ts';
import { type Block, closesCircle, type Raster } from './raster.ts';
import { bytesAt, refuseTruncated } from './slices.ts';
import { unitRead } from './year.ts';

/** The heading lines: a name and a number each; the first line that begins with a number is data. */
interface Heading {
  readonly values: ReadonlyMap<string, number>;
  /** Bytes before the data. */
  readonly bytes: number;
}

const headingLine = /^[ \t]*([a-z_]+)[ \t]+(\S+)[ \t]*(?:\r\n|\r|\n)/i;

function headingOf(text: string): Heading {
  const values = new Map<string, number>();
  let bytes = 0;
  for (let line = headingLine.exec(text); line; line = headingLine.exec(text.slice(bytes))) {
    values.set(line[1]!.toLowerCase(), Number(line[2]));
    bytes += line[0].length;
  }
  return { values, bytes };
}

/** A number of the heading; NaN where it is missing. */
const of = ({ values }: Heading, ...names: readonly string[]): number =>
  names.map((name) => values.get(name)).find((value) => value !== undefined) ?? Number.NaN;

/** First node along an axis: the corner of the cells lies half a cell before. */
function firstNode(heading: Heading, axis: 'x' | 'y', cell: number): number {
  const centre = of(heading, `${axis}llcenter`);
  return Number.isNaN(centre) ? of(heading, `${axis}llcorner`) + cell / 2 : centre;
}

function frameOf(file: string, heading: Heading): GridFrame {
  const [width, height] = [of(heading, 'ncols'), of(heading, 'nrows')];
  const stepX = of(heading, 'cellsize', 'dx');
  const down = of(heading, 'cellsize', 'dy');
  const west = firstNode(heading, 'x', stepX);
  const south = firstNode(heading, 'y', down);
  const north = south + (height - 1) * down;
  if (![width, height].every((n) => Number.isInteger(n) && n > 0) || !(stepX > 0) || !(down > 0)) {
    throw new Refusal(
      file,
      `The heading of ${file} lacks ncols, nrows or cellsize, or they are no numbers.`,
    );
  }
  if (Number.isNaN(west) || Number.isNaN(north)) {
    throw new Refusal(
      file,
      `The heading of ${file} lacks xllcorner and yllcorner (or xllcenter and yllcenter).`,
    );
  }
  const east = west + (width - 1) * stepX;
  if (west < -361 || east > 541 || south < -90 || north > 90) {
    throw new Refusal(
      file,
      `The coordinates of ${file} are not degrees (x ${west} to ${east}, y ${south} to ${north}), and this format names no map projection. ${saveInDegrees}`,
    );
  }
  return {
    width,
    height,
    west,
    north,
    stepX,
    stepY: -down,
    wrapsLongitude: closesCircle(width, stepX),
  };
}

/** Bytes read in one go. */
const piece = 1 << 20;

/** The numbers of a file's data from the first on, as many as are asked, rows from the north. */
async function* numbers(source: ByteSource, from: number): AsyncGenerator<string> {
  const decoder = new TextDecoder('utf-8');
  let rest = '';
  for (let at = from; at < source.size; at += piece) {
    const text = rest + decoder.decode(await bytesAt(source, at, piece), { stream: true });
    const words = text.split(/\s+/);
    // The last word may go on in the next piece.
    rest = words.pop()!;
    for (const word of words) if (word !== '') yield word;
  }
  if (rest !== '') yield rest;
}

function refuseWord(file: string, word: string, k: number, width: number): never {
  throw new Refusal(
    file,
    `${file} has “${word.slice(0, 40)}” in row ${Math.floor(k / width) + 1} of its data, where a number must stand.`,
  );
}

/** A rectangle of the data. The file is read from its first number to the last one wanted. */
async function blockOf(
  source: ByteSource,
  start: number,
  frame: GridFrame,
  block: Block,
): Promise<Float64Array> {
  const out = new Float64Array(block.width * block.height);
  const end = (block.row + block.height) * frame.width;
  let k = 0;
  for await (const word of numbers(source, start)) {
    const column = (k % frame.width) - block.column;
    const row = Math.floor(k / frame.width) - block.row;
    if (row >= 0 && column >= 0 && column < block.width) {
      const value = Number(word);
      if (Number.isNaN(value) && !/^-?(nan|1\.#)/i.test(word))
        refuseWord(source.name, word, k, frame.width);
      out[row * block.width + column] = value;
    }
    k += 1;
    if (k === end) return out;
  }
  return refuseTruncated(source.name);
}

/** Opens an Esri ASCII grid. It names neither its coordinates nor its unit: degrees and the usual unit are assumed, in words. */
export async function openEsriAscii(source: ByteSource, quantity: GridQuantity): Promise<Raster> {
  const file = source.name;
  const heading = headingOf(new TextDecoder('utf-8').decode(await bytesAt(source, 0, 4096)));
  const frame = frameOf(file, heading);
  const { unit, assumed } = unitRead(file, quantity, '');
  const noData = heading.values.get('nodata_value') ?? -9999;
  const read = async (block: Block): Promise<Float64Array> => {
    const raw = await blockOf(source, heading.bytes, frame, block);
    return raw.map((x) => (x === noData ? Number.NaN : (x + unit.add) * yearly(unit)));
  };
  return {
    file,
    quantity,
    frame,
    read,
    heading: 'values',
    unit: unit.unit,
    assumed: [
      `${file} names no coordinate system: longitude and latitude are assumed.`,
      ...assumed,
    ],
  };
}
