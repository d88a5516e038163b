/** Where the nodes of a regular grid stand. Node k stands in column k % width and row floor(k / width). */
export interface GridFrame {
  readonly width: number;
  readonly height: number;
  /** Longitude of the first node, degrees; on a map projection its easting, in the unit of the projection. */
  readonly west: number;
  /** Latitude of the first node, degrees; on a map projection its northing. */
  readonly north: number;
  /** Degrees (or projected units) from a column to the next; positive. */
  readonly stepX: number;
  /** Degrees (or projected units) from a row to the next; negative where rows run from north to south. */
  readonly stepY: number;
  /** The last column is the western neighbour of the first. Never so on a map projection. */
  readonly wrapsLongitude: boolean;
  /** Definition text (proj4) of the map projection the nodes are regular on; none for longitude and latitude. */
  readonly projection?: string;
}

/** Words that stand in every output made from a grid. */
interface Origin {
  readonly source: string;
  readonly period: string;
}

/**
 * A regular grid of annual precipitation, melted snow included. Values belong to nodes; for a raster registered by
 * cells the nodes are the cell centres.
 */
export interface RainGrid extends GridFrame, Origin {
  /** mm a year by row; NaN is no data. */
  readonly mm: Float32Array;
}

/** A regular grid of any quantity: values by row in the quantity's unit, NaN is no data. */
export interface Grid extends GridFrame, Origin {
  readonly values: Float32Array;
}

export const rainOf = ({ values, ...rest }: Grid): RainGrid => ({ ...rest, mm: values });

type Values = 'uint16' | 'float32';

interface Header extends Omit<RainGrid, 'mm'> {
  readonly values: Values;
}

const magic = 0x31474c52; // 'RLG1', little-endian as all of the file
const fixedBytes = 8;
const noData = 0xffff;

const align = (bytes: number): number => Math.ceil(bytes / 4) * 4;

const fitsUint16 = (mm: Float32Array): boolean =>
  mm.every((x) => Number.isNaN(x) || (Number.isInteger(x) && x >= 0 && x < noData));

const packed = (mm: Float32Array): Uint16Array =>
  Uint16Array.from(mm, (x) => (Number.isNaN(x) ? noData : x));

const unpacked = (values: Uint16Array): Float32Array =>
  Float32Array.from(values, (x) => (x === noData ? Number.NaN : x));

/**
 * The grid as bytes: 'RLG1', length of the heading (uint32), heading (JSON, padded to 4 bytes), values.
 * Whole millimetres below 65535 take two bytes a node, anything else four; both come back exactly.
 */
export function encodeGrid(grid: RainGrid): Uint8Array<ArrayBuffer> {
  const { mm, ...rest } = grid;
  const whole = fitsUint16(mm);
  const header: Header = { ...rest, values: whole ? 'uint16' : 'float32' };
  const heading = new TextEncoder().encode(JSON.stringify(header));
  const values = whole ? packed(mm) : mm;
  const start = align(fixedBytes + heading.length);
  const bytes = new Uint8Array(start + values.byteLength);
  new Uint32Array(bytes.buffer, 0, 2).set([magic, heading.length]);
  bytes.set(heading, fixedBytes);
  bytes.set(new Uint8Array(values.buffer, values.byteOffset, values.byteLength), start);
  return bytes;
}

/** Reads what `encodeGrid` wrote. Throws on anything else: these bytes are ours, never the user's. */
export function decodeGrid(bytes: ArrayBuffer): RainGrid {
  const [mark, length] = new Uint32Array(bytes, 0, 2);
  if (mark !== magic || length === undefined) throw new Error('not an encoded rain grid');
  const heading = new TextDecoder().decode(new Uint8Array(bytes, fixedBytes, length));
  const { values, ...rest }: Header = JSON.parse(heading);
  const start = align(fixedBytes + length);
  const n = rest.width * rest.height;
  const mm =
    values === 'uint16'
      ? unpacked(new Uint16Array(bytes, start, n))
      : new Float32Array(bytes.slice(start, start + 4 * n));
  return { ...rest, mm };
}
