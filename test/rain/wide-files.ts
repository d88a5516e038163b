import type { ByteSource } from '../../analysis/read/outcome.ts';

/** Large files that exist only as rules: what a byte is, is worked out when it is asked for. */

/** Nodes of the grid across and down; a degree of longitude and latitude has 128. */
const side = 8192;
const perDegree = 128;
const west = -120;
const north = 60;

/** A plane, so that bilinear values are known at every place. */
const value = (longitude: number, latitude: number): number =>
  1000 + 8 * (longitude + 100) - 4 * (latitude - 40);

const valueAt = (column: number, row: number): number =>
  value(west + (column + 0.5) / perDegree, north - (row + 0.5) / perDegree);

type Wide = { readonly source: ByteSource; readonly value: typeof value };

/** A file of a heading and float32 numbers; `numberAt(k)` is the k-th. */
function wideFile(
  name: string,
  heading: Uint8Array,
  n: number,
  little: boolean,
  numberAt: (k: number) => number,
): Wide {
  const size = heading.length + 4 * n;
  const slice = async (from: number, to: number): Promise<Uint8Array> => {
    const first = Math.max(0, Math.floor((from - heading.length) / 4));
    const last = Math.max(0, Math.ceil((to - heading.length) / 4));
    const numbers = new DataView(new ArrayBuffer(4 * (last - first)));
    for (let k = first; k < last; k++) numbers.setFloat32(4 * (k - first), numberAt(k), little);
    const start = Math.min(from, heading.length);
    const all = new Uint8Array([...heading.subarray(start, Math.min(to, heading.length))]);
    const skip = from > heading.length ? from - heading.length - 4 * first : 0;
    const out = new Uint8Array(to - from);
    out.set(all);
    out.set(
      new Uint8Array(numbers.buffer).subarray(skip, skip + out.length - all.length),
      all.length,
    );
    return out;
  };
  const bytes = async function* () {
    for (let at = 0; at < size; at += 1 << 20) yield slice(at, Math.min(size, at + (1 << 20)));
  };
  return { source: { name, size, bytes, slice }, value };
}

/** TIFF 6.0 and GeoTIFF by hand: uncompressed float32, WGS 84, in tiles of 256 × 256 or strips of one row. */
export function wideTiff(shape: 'tiled' | 'strips'): Wide {
  const tile = 256;
  const across = side / tile;
  const pieces = shape === 'tiled' ? across * across : side;
  const pieceBytes = (4 * side * side) / pieces;
  const scale = new Float64Array([1 / perDegree, 1 / perDegree, 0]);
  const tie = new Float64Array([0, 0, 0, west, north, 0]);
  const keys = [1, 1, 0, 3, 1024, 0, 1, 2, 1025, 0, 1, 1, 2048, 0, 1, 4326];
  const [offsetsTag, countsTag] = shape === 'tiled' ? [324, 325] : [273, 279];
  // Tags as [tag, type, count, value or null where it stands apart]: 3 is SHORT, 4 LONG, 12 DOUBLE.
  const shared: (readonly [number, number, number, number | null])[] = [
    [256, 4, 1, side],
    [257, 4, 1, side],
    [258, 3, 1, 32],
    [259, 3, 1, 1],
    [262, 3, 1, 1],
    [277, 3, 1, 1],
    [339, 3, 1, 3],
    [offsetsTag!, 4, pieces, null],
    [countsTag!, 4, pieces, null],
    [33550, 12, 3, null],
    [33922, 12, 6, null],
    [34735, 3, keys.length, null],
  ];
  const own: typeof shared =
    shape === 'tiled'
      ? [
          [322, 4, 1, tile],
          [323, 4, 1, tile],
        ]
      : [[278, 4, 1, 1]];
  const tags = [...shared, ...own].toSorted(([a], [b]) => a - b);
  const typeBytes: Readonly<Record<number, number>> = { 3: 2, 4: 4, 12: 8 };
  const apart = tags.reduce(
    (sum, [, type, count, v]) => sum + (v === null ? count * typeBytes[type]! : 0),
    0,
  );
  const directory = 8;
  const view = new DataView(new ArrayBuffer(directory + 6 + 12 * tags.length + apart));
  view.setUint32(0, 0x49492a00);
  view.setUint32(4, directory, true);
  view.setUint16(directory, tags.length, true);
  let at = directory + 6 + 12 * tags.length;
  const lists: Readonly<Record<number, (k: number) => number>> = {
    [offsetsTag!]: (k) => view.byteLength + k * pieceBytes,
    [countsTag!]: () => pieceBytes,
    33550: (k) => scale[k]!,
    33922: (k) => tie[k]!,
    34735: (k) => keys[k]!,
  };
  tags.forEach(([tag, type, count, v], i) => {
    const entry = directory + 2 + 12 * i;
    view.setUint16(entry, tag, true);
    view.setUint16(entry + 2, type, true);
    view.setUint32(entry + 4, count, true);
    view.setUint32(entry + 8, v ?? at, true);
    for (let k = 0; v === null && k < count; k++, at += typeBytes[type]!) {
      const x = lists[tag]!(k);
      if (type === 12) view.setFloat64(at, x, true);
      else if (type === 4) view.setUint32(at, x, true);
      else view.setUint16(at, x, true);
    }
  });
  const numberAt = (k: number): number => {
    if (shape === 'strips') return valueAt(k % side, Math.floor(k / side));
    const piece = Math.floor(k / (tile * tile));
    const within = k % (tile * tile);
    return valueAt(
      (piece % across) * tile + (within % tile),
      Math.floor(piece / across) * tile + Math.floor(within / tile),
    );
  };
  return wideFile('wide.tif', new Uint8Array(view.buffer), side * side, true, numberAt);
}

/** NetCDF classic by hand (64-bit offset format not needed): lat, lon and pr(lat, lon) in mm, after the specification. */
export function wideNetcdf(): Wide {
  const [height, width] = [side / 2, side];
  const words: number[] = [];
  const int = (...xs: number[]) =>
    words.push(
      ...xs.flatMap((x) => [(x >>> 24) & 255, (x >>> 16) & 255, (x >>> 8) & 255, x & 255]),
    );
  const text = (s: string) => {
    int(s.length);
    words.push(...new TextEncoder().encode(s), ...new Array((4 - (s.length % 4)) % 4).fill(0));
  };
  const variable = (name: string, dims: number[], units: string, bytes: number, begin: number) => {
    text(name);
    int(dims.length, ...dims, 12, 1);
    text('units');
    int(2);
    text(units);
    int(5, bytes, begin);
  };
  const heading = (start: number): Uint8Array => {
    words.length = 0;
    words.push(0x43, 0x44, 0x46, 1);
    int(0, 10, 2);
    text('lat');
    int(height);
    text('lon');
    int(width);
    int(0, 0, 11, 3);
    variable('lat', [0], 'degrees_north', 4 * height, start);
    variable('lon', [1], 'degrees_east', 4 * width, start + 4 * height);
    variable('pr', [0, 1], 'mm', 4 * height * width, start + 4 * (height + width));
    return new Uint8Array(words);
  };
  const first = heading(heading(0).length);
  const numberAt = (k: number): number => {
    if (k < height) return north - (k + 0.5) / perDegree;
    if (k < height + width) return west + (k - height + 0.5) / perDegree;
    const node = k - height - width;
    return valueAt(node % width, Math.floor(node / width));
  };
  return wideFile('wide.nc', first, height + width + height * width, false, numberAt);
}
