import { Refusal } from '../../read/outcome.ts';
import { rainConstant } from '../constants.ts';
import { type GridFile, mostNodes } from '../csv-grid.ts';
import type { Grid, GridFrame } from '../grid.ts';
import { factsOf, type GridQuantity } from '../quantity.ts';
import { type Cut, cutOf, type Window } from './window.ts';

/** A rectangle of nodes. */
export interface Block {
  readonly column: number;
  readonly row: number;
  readonly width: number;
  readonly height: number;
}

/** A file opened so that any part of it can be read. */
export interface Raster {
  readonly file: string;
  readonly quantity: GridQuantity;
  /** Nodes in the order of the file. */
  readonly frame: GridFrame;
  /** Values of a rectangle by row, of the whole year, in the quantity's unit; NaN is no data. */
  readonly read: (block: Block) => Promise<Float64Array>;
  /** Name of the variable or band. */
  readonly heading: string;
  readonly unit: string;
  /** Sentences on what had to be assumed. */
  readonly assumed: readonly string[];
}

const span = (a: number, b: number): string =>
  [a, b]
    .toSorted((p, q) => p - q)
    .map((x) => Math.round(x * 1e4) / 1e4)
    .join('° to ');

function refuseElsewhere({ file, frame }: Raster): never {
  const { west, stepX, width, north, stepY, height, projection } = frame;
  const where =
    projection === undefined
      ? ` It covers longitudes ${span(west, west + (width - 1) * stepX)}° and latitudes ${span(north, north + (height - 1) * stepY)}°.`
      : '';
  throw new Refusal(
    file,
    `No building lies on the grid of ${file} or within ${rainConstant('grid_reach_km')} km of it.${where} Choose a grid of their region.`,
  );
}

function refuseMany(file: string, nodes: number): void {
  if (nodes <= mostNodes) return;
  throw new Refusal(
    file,
    `${file} has ${(nodes / 1e6).toFixed(1)} million nodes around the buildings; at most ${mostNodes / 1e6} million can be held. Make the grid coarser.`,
  );
}

/** A value as it is kept: what rounding took below the least is the least; beyond reason the file is refused. */
function checked({ file, quantity, heading, unit }: Raster, value: number): number {
  const { noun, unit: kept, least, greatest, slack } = factsOf(quantity);
  if (value >= least && value <= greatest) return value;
  if (!Number.isFinite(value)) return Number.NaN;
  if (value < least && value >= least - slack) return least;
  const shown = Number(value.toPrecision(6));
  throw new Refusal(
    file,
    `${file} holds ${shown} ${kept} under “${heading}” (read in ${unit}), which no ${noun} is. Is that its no-data value, or is the unit another? Name it in the file.`,
  );
}

async function valuesOf(raster: Raster, { columns, rows }: Cut): Promise<Float32Array> {
  const height = rows.to - rows.from;
  const width = columns.reduce((sum, { from, to }) => sum + to - from, 0);
  const values = new Float32Array(width * height);
  let left = 0;
  for (const { from, to } of columns) {
    const block = { column: from, row: rows.from, width: to - from, height };
    const read = await raster.read(block);
    for (let i = 0; i < read.length; i++) {
      const row = Math.floor(i / block.width);
      values[row * width + left + (i % block.width)] = checked(raster, read[i]!);
    }
    left += block.width;
  }
  return values;
}

/** Longitude in −180 ≤ x < 180. */
const eastWest = (x: number): number => x - 360 * Math.floor((x + 180) / 360);

function frameOf({ frame }: Raster, { columns, rows }: Cut): GridFrame {
  const width = columns.reduce((sum, { from, to }) => sum + to - from, 0);
  const west = frame.west + columns[0]!.from * frame.stepX;
  return {
    ...frame,
    width,
    height: rows.to - rows.from,
    west: frame.projection === undefined ? eastWest(west) : west,
    north: frame.north + rows.from * frame.stepY,
    wrapsLongitude: frame.wrapsLongitude && width === frame.width,
  };
}

/** Reads of a raster what the buildings within the window need, or all of it. */
export async function readRaster(
  raster: Raster,
  window: Window | null,
  period: string,
): Promise<GridFile> {
  const { file, quantity, frame, heading, unit, assumed } = raster;
  if (frame.width < 2 || frame.height < 2) {
    throw new Refusal(
      file,
      `${file} is ${frame.width} × ${frame.height} nodes. A grid needs two rows and two columns or more.`,
    );
  }
  const cut = cutOf(frame, window);
  if (cut.columns.length === 0) refuseElsewhere(raster);
  const place = frameOf(raster, cut);
  refuseMany(file, place.width * place.height);
  const values = await valuesOf(raster, cut);
  if (values.every(Number.isNaN)) {
    const where = window === null ? '' : ' around the buildings';
    throw new Refusal(
      file,
      `${file} has no data${where}: every node is marked as missing. Choose a file with ${factsOf(quantity).noun} there.`,
    );
  }
  const grid: Grid = { ...place, values, source: `${file}, ${heading}`, period };
  const n = values.length;
  return { grid, rowsRead: n, accepted: n, setAside: [], noted: [], heading, unit, assumed };
}

/** Whether longitudes of this spacing close the circle. */
export const closesCircle = (width: number, stepX: number): boolean =>
  Math.abs(width * stepX - 360) < stepX / 2;
