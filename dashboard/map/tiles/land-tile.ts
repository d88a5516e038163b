import { atZoom, cutShapes } from './cut.ts';
import type { TileFeature } from './encode.ts';
import type { TileId } from './mercator.ts';
import type { Shape } from './shapes.ts';

/** Islands and lakes smaller than this are not drawn, px. */
const smallestRing = 1;

/** The land of the sheet, with the detail of each zoom kept once made. */
export class LandTiles {
  readonly #shapes: readonly Shape[];
  readonly #byZoom = new Map<number, readonly Shape[]>();

  constructor(shapes: readonly Shape[]) {
    this.#shapes = shapes;
  }

  tile(tile: TileId): TileFeature[] {
    return cutShapes(this.#at(tile.z), tile);
  }

  /** Ocean and lakes of a tile. */
  waters(tile: TileId): TileFeature[] {
    const areas = this.#at(tile.z).filter(({ area }) => area);
    return cutShapes(areas, tile);
  }

  #at(zoom: number): readonly Shape[] {
    const known = this.#byZoom.get(zoom) ?? atZoom(this.#shapes, zoom, smallestRing);
    this.#byZoom.set(zoom, known);
    return known;
  }
}
