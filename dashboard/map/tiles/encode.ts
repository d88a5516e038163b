import { fromVectorTileJs, type VectorTileFeatureLike } from '@maplibre/vt-pbf';
import type { Properties } from './shapes.ts';

/** Units of a vector tile's side. */
export const extent = 4096;

/** Name of the one layer in every tile that this map makes. */
export const layerName = 'sheet';

export interface TilePoint {
  readonly x: number;
  readonly y: number;
}

/** A point (1), a line (2) or an area (3) of a tile, in tile units; an area's first ring is the outer one, rings are closed. */
export interface TileFeature {
  readonly type: 1 | 2 | 3;
  readonly properties: Properties;
  readonly geometry: readonly (readonly TilePoint[])[];
}

/** What one tile draws of the buildings; one entry a mark, in the order of drawing. */
export interface Marks {
  readonly n: number;
  /** Zoom of the tile. */
  readonly z: number;
  /** Position in tile units. */
  readonly x: Int32Array;
  readonly y: Int32Array;
  /** The building the mark stands for: the only one, or the heaviest of its cell. */
  readonly ordinal: Uint32Array;
  readonly tier: Uint8Array;
  /** Buildings under the mark. */
  readonly count: Uint32Array;
  /** Their mean index to one decimal, NaN where none is scored. */
  readonly meanIndex: Float64Array;
}

/**
 * A tile of building marks as Mapbox Vector Tile 2 bytes. Feature id is the building's ordinal; properties are
 * `tier` (index into `tiers`) and `n`, the buildings under the mark. Where they are several, `z` is the zoom at which
 * they share it and `tenth` their mean index in tenths of the scale, 0-10, absent where none is scored.
 */
export function encodeMarks(marks: Marks): ArrayBuffer {
  return encoded(marks.n, (i) => ({
    type: 1,
    id: marks.ordinal[i]!,
    properties: propertiesOf(marks, i),
    geometry: [[{ x: marks.x[i]!, y: marks.y[i]! }]],
  }));
}

function propertiesOf({ tier, count, z, meanIndex }: Marks, i: number): Properties {
  const alone = { tier: tier[i]!, n: count[i]! };
  if (alone.n === 1) return alone;
  const mean = meanIndex[i]!;
  return { ...alone, z, ...(!Number.isNaN(mean) && { tenth: Math.round(mean / 10) }) };
}

/** A tile of lines and areas as Mapbox Vector Tile 2 bytes. */
export function encodeFeatures(features: readonly TileFeature[]): ArrayBuffer {
  return encoded(features.length, (i) => ({ ...features[i]!, id: undefined }));
}

type Written = TileFeature & { readonly id: number | undefined };

function encoded(length: number, feature: (i: number) => Written): ArrayBuffer {
  const read = (i: number): VectorTileFeatureLike => {
    const { geometry, ...rest } = feature(i);
    // The writer reads no more than x and y of its point class.
    return { ...rest, extent, loadGeometry: () => geometry } as unknown as VectorTileFeatureLike;
  };
  const layer = { version: 2, name: layerName, extent, length, feature: read };
  const bytes = fromVectorTileJs({ layers: { [layerName]: layer } });
  return bytes.slice().buffer as ArrayBuffer;
}
