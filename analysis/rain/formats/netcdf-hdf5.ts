import type { Dataset, File } from 'h5wasm';
import { type ByteSource, Refusal } from '../../read/outcome.ts';
import { bytesAt, refuseTruncated } from './slices.ts';
import type { AttributeValue, Dimension, NumberType, Variable, VariableFile } from './variables.ts';

type Library = typeof import('h5wasm');

/** The HDF5 library has no way to wait for bytes, so the whole file must be held. */
const mostBytes = 500e6;

/** HDF5 type classes (H5T_class_t). */
const integer = 0;
const floating = 1;

function typeOf({ metadata: { type, size, signed } }: Dataset): NumberType | undefined {
  if (type === floating) return ({ 4: 'float32', 8: 'float64' } as const)[size];
  if (type !== integer) return undefined;
  const whole = { 1: 'int8', 2: 'int16', 4: 'int32' } as const;
  const natural = { 1: 'uint8', 2: 'uint16', 4: 'uint32' } as const;
  return (signed ? whole : natural)[size as 1 | 2 | 4];
}

/** Where the end of the file is by its superblock (HDF5 file format specification 3.0, II.A). */
function endOfFile(head: Uint8Array<ArrayBuffer>): number {
  const view = new DataView(head.buffer, head.byteOffset, head.length);
  const version = view.getUint8(8);
  const at = [24 + 16, 28 + 16, 12 + 16, 12 + 16][version];
  return at === undefined ? 0 : Number(view.getBigUint64(at, true));
}

/** The library tells of broken files on the console only, so what can be known before is looked at first. */
async function refuseBroken(source: ByteSource): Promise<void> {
  if (source.size > mostBytes) {
    throw new Refusal(
      source.name,
      `${source.name} has ${Math.round(source.size / 1e6)} MB. A NetCDF-4 file must be held whole, and ${mostBytes / 1e6} MB is the most. Cut it to the region of the buildings, or save it as classic NetCDF or GeoTIFF, of which only a part is read.`,
    );
  }
  const head = await bytesAt(source, 0, 96);
  if (head.length < 96 || source.size < endOfFile(head)) refuseTruncated(source.name);
}

async function bytesOf(source: ByteSource): Promise<Uint8Array> {
  const bytes = new Uint8Array(source.size);
  let at = 0;
  for await (const piece of source.bytes()) {
    bytes.set(piece, at);
    at += piece.length;
  }
  return bytes;
}

function plainValue(value: unknown): AttributeValue | undefined {
  if (typeof value === 'string' || typeof value === 'number') return value;
  if (typeof value === 'bigint') return Number(value);
  if (Array.isArray(value) && value.every((x) => typeof x === 'string')) return value.join(' ');
  if (!ArrayBuffer.isView(value) && !Array.isArray(value)) return undefined;
  const numbers = Array.from(value as ArrayLike<number | bigint>, Number);
  return numbers.length === 1 ? numbers[0]! : numbers;
}

/** Lists of references and the marks of dimension scales are not ours to read. */
const inner = new Set(['DIMENSION_LIST', 'REFERENCE_LIST', 'CLASS', 'NAME', '_Netcdf4Dimid']);

function attributesOf(dataset: Dataset): ReadonlyMap<string, AttributeValue> {
  const { attrs } = dataset;
  const names = Object.keys(attrs).filter((name) => !inner.has(name));
  return new Map(
    names.flatMap((name) => {
      const value = plainValue(attrs[name]!.value);
      return value === undefined ? [] : [[name, value] as const];
    }),
  );
}

const baseName = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

/** Dimensions by the scales attached to a variable; a coordinate variable is its own. */
function dimensionsOf(dataset: Dataset, name: string): Dimension[] {
  const { shape } = dataset;
  return (shape ?? []).map((size, d) => {
    const scale = dataset.get_attached_scales(d)[0];
    return {
      name: scale === undefined ? (shape!.length === 1 ? name : `${name} ${d}`) : baseName(scale),
      size,
    };
  });
}

function variableOf(dataset: Dataset, path: string): Variable[] {
  const type = typeOf(dataset);
  if (type === undefined) return [];
  const name = baseName(path);
  return [
    {
      name,
      type,
      dimensions: dimensionsOf(dataset, name),
      attributes: attributesOf(dataset),
      read: async (start, count) =>
        dataset.slice(start.map((from, d) => [from, from + count[d]!])) as ArrayLike<number>,
    },
  ];
}

function opened(library: Library, path: string, file: string): File {
  const opening = new library.File(path, 'r');
  if (opening.file_id >= 0n) return opening;
  throw new Refusal(
    file,
    `${file} cannot be read as NetCDF-4: it is damaged. Copy or download it again.`,
  );
}

let turn = 0;

/** Opens NetCDF-4, which is HDF5. Values are read by rectangle from the file held in memory, until it is closed. */
export async function openHdf5(source: ByteSource): Promise<VariableFile> {
  await refuseBroken(source);
  const library = await import('h5wasm');
  const { FS } = await library.ready;
  const path = `/grid-${++turn}`;
  FS.writeFile(path, await bytesOf(source));
  const file = opened(library, path, source.name);
  const variables = file.paths().flatMap((name) => {
    const entity = file.get(name);
    return entity instanceof library.Dataset ? variableOf(entity, name) : [];
  });
  const close = (): void => {
    file.close();
    FS.unlink(path);
  };
  return { file: source.name, variables, close };
}
