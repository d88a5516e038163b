import type { GeoTIFFImage } from 'geotiff';
import { type ByteSource, Refusal } from '../../read/outcome.ts';
import type { GridFrame } from '../grid.ts';
import type { GridQuantity } from '../quantity.ts';
import { mendByteOrder } from './byte-order.ts';
import { projectionOf } from './geokeys.ts';
import { saveInDegrees } from './projections.ts';
import { type Block, closesCircle, type Raster } from './raster.ts';
import { type SliceSource, sliceSource } from './slices.ts';
import { addLayer, type Layers, unitRead, weightsOf } from './year.ts';

/** Runs a step of the TIFF library, whose own errors become one sentence. */
async function reading<T>(file: string, step: () => Promise<T>): Promise<T> {
  try {
    return await step();
  } catch (cause) {
    if (cause instanceof Refusal) throw cause;
    const why = cause instanceof Error ? cause.message : String(cause);
    throw new Refusal(
      file,
      `${file} cannot be read as a GeoTIFF: it is cut short, damaged or packed in a way we do not know (${why}).`,
    );
  }
}

async function firstImage(file: string, slices: SliceSource): Promise<GeoTIFFImage> {
  const { GeoTIFF } = await import('geotiff');
  // The library's types ask for its own class; its code asks for these functions only.
  const tiff = await GeoTIFF.fromSource(
    slices as unknown as Parameters<typeof GeoTIFF.fromSource>[0],
  );
  if (slices.fileSize === 0) throw new Refusal(file, `${file} is empty.`);
  return tiff.getImage(0);
}

/** x = x0 + column · stepX and y = y0 + row · stepY at the corner of a cell, or at its centre. */
interface Lattice {
  readonly x0: number;
  readonly y0: number;
  readonly stepX: number;
  readonly stepY: number;
}

function ofMatrix(file: string, m: ArrayLike<number>): Lattice {
  if (m[1] !== 0 || m[4] !== 0) {
    throw new Refusal(
      file,
      `The rows of ${file} are rotated against its coordinates. Save it upright (rows from west to east), and choose that file.`,
    );
  }
  return { x0: m[3]!, y0: m[7]!, stepX: m[0]!, stepY: m[5]! };
}

function latticeOf(file: string, image: GeoTIFFImage): Lattice {
  const { fileDirectory: tags } = image;
  const tie = tags.getValue('ModelTiepoint') as ArrayLike<number> | undefined;
  const scale = tags.getValue('ModelPixelScale') as ArrayLike<number> | undefined;
  const matrix = tags.getValue('ModelTransformation') as ArrayLike<number> | undefined;
  if (matrix) return ofMatrix(file, matrix);
  if (tie?.length === 6 && scale) {
    const [stepX, stepY] = [scale[0]!, -scale[1]!];
    return { x0: tie[3]! - tie[0]! * stepX, y0: tie[4]! - tie[1]! * stepY, stepX, stepY };
  }
  const what = tie
    ? 'is tied to the ground at scattered points'
    : 'does not say where on Earth it lies';
  throw new Refusal(file, `${file} ${what}. ${saveInDegrees}`);
}

const withinDegrees = ({ x0, y0, stepX, stepY }: Lattice, width: number, height: number): boolean =>
  x0 >= -360 &&
  x0 + width * stepX <= 540 &&
  Math.max(Math.abs(y0), Math.abs(y0 + height * stepY)) <= 91;

interface Placed {
  readonly frame: GridFrame;
  readonly assumed: readonly string[];
}

async function placeOf(file: string, image: GeoTIFFImage): Promise<Placed> {
  const lattice = latticeOf(file, image);
  const keys = image.getGeoKeys();
  const [width, height] = [image.getWidth(), image.getHeight()];
  const projection = keys ? await projectionOf(file, keys) : undefined;
  if (projection === undefined && !withinDegrees(lattice, width, height)) {
    throw new Refusal(
      file,
      `The coordinates of ${file} are not degrees, and it names no map projection. ${saveInDegrees}`,
    );
  }
  const { x0, y0, stepX, stepY } = lattice;
  if (!(stepX > 0) || stepY === 0) {
    throw new Refusal(
      file,
      `The columns of ${file} do not run from west to east. Save it with north up, and choose that file.`,
    );
  }
  // Tie points name the corner of a cell, or its centre where the raster type is point (2): a node is a centre.
  const half = keys?.GTRasterTypeGeoKey === 2 ? 0 : 0.5;
  const frame: GridFrame = {
    width,
    height,
    west: x0 + half * stepX,
    north: y0 + half * stepY,
    stepX,
    stepY,
    wrapsLongitude: projection === undefined && closesCircle(width, stepX),
    ...(projection !== undefined && { projection }),
  };
  const assumed = keys
    ? []
    : [`${file} names no coordinate system: longitude and latitude are assumed.`];
  return { frame, assumed };
}

/** One band is the year, twelve are its months. */
function layersOf(file: string, bands: number): Layers {
  if (bands === 1) return { kind: 'one', n: 1 };
  if (bands === 12) return { kind: 'months', n: 12, first: 0 };
  throw new Refusal(
    file,
    `${file} has ${bands} bands. Give one band with the year, or twelve with its months, January first.`,
  );
}

/** How a band's numbers become values, and what they are called. */
interface Packing {
  readonly scale: number;
  readonly offset: number;
  readonly unit: string;
  readonly name: string;
}

async function packingOf(image: GeoTIFFImage, band: number): Promise<Packing> {
  const items = (await image.getGDALMetadata(band)) ?? {};
  const common = (await image.getGDALMetadata()) ?? {};
  return {
    scale: Number(items.SCALE ?? 1),
    offset: Number(items.OFFSET ?? 0),
    unit: String(items.UNITTYPE ?? items.units ?? common.units ?? ''),
    name: String(items.DESCRIPTION ?? ''),
  };
}

/** The no-data value as the band's own type holds it; NaN for none. */
function noDataOf(image: GeoTIFFImage): number {
  const text = image.fileDirectory.getValue('GDAL_NODATA') as string | undefined;
  const value = text === undefined ? Number.NaN : Number.parseFloat(text);
  return image.getSampleFormat() === 3 && image.getBitsPerSample() <= 32
    ? Math.fround(value)
    : value;
}

async function bandsOf(file: string, image: GeoTIFFImage, { column, row, width, height }: Block) {
  const window = [column, row, column + width, row + height];
  // Without a pool: the worker this runs in is the only one the page's policy allows.
  return reading(file, () => image.readRasters({ window, interleave: false, pool: null }));
}

/**
 * Opens a GeoTIFF (plain, tiled, cloud-optimised, any byte order). Reading asks only for the tiles or strips of the
 * rectangle; reduced copies inside the file are left alone.
 */
export async function openGeotiff(source: ByteSource, quantity: GridQuantity): Promise<Raster> {
  const file = source.name;
  const slices = sliceSource(source);
  const image = await reading(file, () => firstImage(file, slices));
  slices.mindTheEnd();
  await reading(file, () => mendByteOrder(source, image));
  const layers = layersOf(file, image.getSamplesPerPixel());
  const place = await placeOf(file, image);
  const packings = await reading(file, () =>
    Promise.all(Array.from({ length: layers.n }, (_, band) => packingOf(image, band))),
  );
  const { unit, assumed } = unitRead(file, quantity, packings[0]!.unit);
  const weights = weightsOf(unit, layers);
  const noData = noDataOf(image);
  const read = async (block: Block): Promise<Float64Array> => {
    const bands = await bandsOf(file, image, block);
    const year = new Float64Array(block.width * block.height);
    packings.forEach(({ scale, offset }, band) => {
      const layer = Float64Array.from(bands[band]!, (raw) =>
        raw === noData ? Number.NaN : raw * scale + offset,
      );
      addLayer(year, layer, unit.add, weights[band]!);
    });
    return year;
  };
  const heading = packings[0]!.name || (layers.n === 1 ? 'band 1' : 'bands 1 to 12');
  return {
    file,
    quantity,
    frame: place.frame,
    read,
    heading,
    unit: unit.unit,
    assumed: [...place.assumed, ...assumed],
  };
}
