import { type ByteSource, Refusal } from '../../read/outcome.ts';
import { listed } from '../heading.ts';
import { factsOf, type GridQuantity, plain, quantityNamed } from '../quantity.ts';
import { type Axes, axesOf, layoutOf } from './axes.ts';
import { openClassic } from './netcdf-classic.ts';
import { openHdf5 } from './netcdf-hdf5.ts';
import type { Block, Raster } from './raster.ts';
import { layersOf } from './time.ts';
import { textOf, unpacker, type Variable, type VariableFile } from './variables.ts';
import { addLayer, unitRead, weightsOf } from './year.ts';

/** A variable with nodes, and where they stand. */
interface Candidate {
  readonly variable: Variable;
  readonly axes: Axes;
}

/** Those that speak of the quantity: by standard name, else by name or description. */
function speaking(quantity: GridQuantity, all: readonly Candidate[]): readonly Candidate[] {
  const { standardNames, words } = factsOf(quantity);
  const standard = all.filter(({ variable }) =>
    standardNames.has(textOf(variable, 'standard_name')),
  );
  const named = all.filter(({ variable }) => words.test(plain(variable.name)));
  const described = all.filter(({ variable }) => words.test(plain(textOf(variable, 'long_name'))));
  return [standard, named, described].find((some) => some.length > 0) ?? [];
}

/** The only variable is taken whatever its name, unless that names another quantity. */
function onlyOne(quantity: GridQuantity, all: readonly Candidate[]): readonly Candidate[] {
  const named = all.length === 1 ? quantityNamed(all[0]!.variable.name) : undefined;
  return all.length === 1 && (named === undefined || named === quantity) ? all : [];
}

function chosen(file: string, quantity: GridQuantity, all: readonly Candidate[]): Candidate {
  const { noun } = factsOf(quantity);
  const speak = speaking(quantity, all);
  const [first, ...more] = speak.length > 0 ? speak : onlyOne(quantity, all);
  if (first && more.length === 0) return first;
  const names = listed((first ? speak : all).map(({ variable }) => variable.name));
  const says = first
    ? `has more than one variable that could be the ${noun}: ${names}. Keep only the right one.`
    : `has no variable that we know as ${noun}. It has ${names}. Give the right one a standard_name, or name it ${noun}.`;
  throw new Refusal(file, `${file} ${says}`);
}

async function candidatesIn({ file, variables }: VariableFile): Promise<readonly Candidate[]> {
  const found: Candidate[] = [];
  for (const variable of variables) {
    const axes = axesOf(variable, variables);
    if (axes) found.push({ variable, axes });
  }
  if (found.length > 0) return found;
  throw new Refusal(
    file,
    `${file} has no variable on axes of latitude and longitude in degrees. Save it by longitude and latitude with the program it comes from, and choose that file.`,
  );
}

/** How to read a rectangle of one layer: start and count along each dimension of the variable. */
function rangesOf({ variable, axes }: Candidate, block: Block, layer: number) {
  const { longitude, latitude, time } = axes;
  const at = (lon: number, lat: number, t: number, other: number) =>
    variable.dimensions.map((_, d) => {
      if (d === longitude.position) return lon;
      if (d === latitude.position) return lat;
      return d === time?.position ? t : other;
    });
  return {
    start: at(block.column, block.row, layer, 0),
    count: at(block.width, block.height, 1, 1),
  };
}

/** A layer's numbers by row, whichever of the two axes runs faster in the file. */
function byRow({ axes }: Candidate, block: Block, read: ArrayLike<number>): ArrayLike<number> {
  if (axes.latitude.position < axes.longitude.position) return read;
  const { width, height } = block;
  return Float64Array.from(
    { length: width * height },
    (_, i) => read[(i % width) * height + Math.floor(i / width)]!,
  );
}

async function rasterOf(
  file: string,
  quantity: GridQuantity,
  candidate: Candidate,
): Promise<Raster> {
  const { variable, axes } = candidate;
  const layers = await layersOf(file, axes.time?.size ?? 1, axes.time?.variable ?? null);
  const { unit, assumed } = unitRead(file, quantity, textOf(variable, 'units'));
  const weights = weightsOf(unit, layers);
  const unpack = unpacker(variable);
  const { frame, mirrored } = await layoutOf(file, axes);
  const read = async (wanted: Block): Promise<Float64Array> => {
    const block = mirrored
      ? { ...wanted, column: frame.width - wanted.column - wanted.width }
      : wanted;
    const year = new Float64Array(block.width * block.height);
    for (let layer = 0; layer < layers.n; layer++) {
      const { start, count } = rangesOf(candidate, block, layer);
      const raw = byRow(candidate, block, await variable.read(start, count));
      addLayer(year, Float64Array.from(raw, unpack), unit.add, weights[layer]!);
    }
    return mirrored ? fromWest(year, block.width) : year;
  };
  return { file, quantity, frame, read, heading: variable.name, unit: unit.unit, assumed };
}

/** Rows that run from east to west, turned round. */
const fromWest = (values: Float64Array, width: number): Float64Array =>
  values.map((_, i) => values[i - (i % width) + width - 1 - (i % width)]!);

/** A raster, and what must be called when no more of it will be read. */
export interface OpenedRaster {
  readonly raster: Raster;
  readonly close: () => void;
}

/** Opens a NetCDF file, classic or NetCDF-4, and finds the variable and the axes of the quantity. */
export async function openNetcdf(
  source: ByteSource,
  quantity: GridQuantity,
  kind: 'classic' | 'hdf5',
): Promise<OpenedRaster> {
  const open = kind === 'classic' ? openClassic : openHdf5;
  const opened = await open(source);
  try {
    const candidate = chosen(opened.file, quantity, await candidatesIn(opened));
    return { raster: await rasterOf(opened.file, quantity, candidate), close: opened.close };
  } catch (cause) {
    opened.close();
    throw cause;
  }
}
