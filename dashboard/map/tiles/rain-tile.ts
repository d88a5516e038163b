import type { RainNodes } from '../rain/grid.ts';
import { rainFeatures } from '../rain/isohyets.ts';
import type { Units } from '../rain/levels.ts';
import { nodesOver } from '../rain/window.ts';
import { atZoom, cutShapes } from './cut.ts';
import type { TileFeature } from './encode.ts';
import { insideOf } from './inside.ts';
import type { TileId } from './mercator.ts';
import { shapeOf } from './shapes.ts';

/** Rings of rain smaller than this say more about the grid than about the rain, px. */
const smallestRing = 10;

/**
 * Bands, isohyets and their figures in one tile. Only the tile's own window of the grid is contoured, so that a change
 * of units costs no more than what is in view.
 * @param waters areas of the same tile; water hides rain, so figures stand on land
 */
export function rainTile(
  sheet: RainNodes,
  units: Units,
  tile: TileId,
  waters: readonly TileFeature[],
): TileFeature[] {
  const shapes = nodesOver(sheet, tile).flatMap((nodes) => rainFeatures(nodes, units).map(shapeOf));
  const isWet = insideOf(waters);
  return cutShapes(atZoom(shapes, tile.z, smallestRing), tile, (point) => !isWet(point));
}
