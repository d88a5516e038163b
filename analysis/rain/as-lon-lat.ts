import type { RainGrid } from './grid.ts';
import { projectorOf } from './projection.ts';
import { sampleGrid } from './sample.ts';

/** West, south, east, north in degrees; west < east, which may exceed 180. */
type Box = readonly [west: number, south: number, east: number, north: number];

/** Places along each side of the grid that are looked at to find the degrees it covers. */
const looks = 48;

/** Degrees that the nodes of a grid on a projection cover; longitudes are kept within a turn of its middle. */
function boxOf(grid: RainGrid): Box {
  const { inverse } = projectorOf(grid.projection!);
  const at = new Float64Array(2);
  const place = (u: number, v: number): Float64Array => {
    const x = grid.west + u * (grid.width - 1) * grid.stepX;
    inverse(x, grid.north + v * (grid.height - 1) * grid.stepY, at);
    return at;
  };
  const middle = place(0.5, 0.5)[0]!;
  const box = [Number.POSITIVE_INFINITY, 90, Number.NEGATIVE_INFINITY, -90];
  for (let k = 0; k < (looks + 1) ** 2; k++) {
    const [longitude, latitude] = place(
      (k % (looks + 1)) / looks,
      Math.floor(k / (looks + 1)) / looks,
    );
    if (Number.isNaN(longitude) || Number.isNaN(latitude)) continue;
    const turned = longitude! - 360 * Math.round((longitude! - middle) / 360);
    box[0] = Math.min(box[0]!, turned);
    box[1] = Math.min(box[1]!, latitude!);
    box[2] = Math.max(box[2]!, turned);
    box[3] = Math.max(box[3]!, latitude!);
  }
  return [box[0]!, box[1]!, box[2]!, box[3]!];
}

function degreesOf(grid: RainGrid): Box {
  if (grid.projection !== undefined) return boxOf(grid);
  const east = grid.west + (grid.width - 1) * grid.stepX;
  const last = grid.north + (grid.height - 1) * grid.stepY;
  return [grid.west, Math.min(last, grid.north), east, Math.max(last, grid.north)];
}

/** Columns and rows of nearly square steps in degrees, at most `maxNodes` together. */
function sizeFor([west, south, east, north]: Box, maxNodes: number): readonly [number, number] {
  const ratio = Math.sqrt((east - west) / (north - south));
  const width = Math.max(2, Math.floor(Math.sqrt(maxNodes) * ratio));
  return [width, Math.max(2, Math.floor(maxNodes / width))];
}

/**
 * The grid by longitude and latitude with at most about `maxNodes` nodes, for drawing: as it is where it already is such
 * a grid, else resampled by the bilinear rule, without data where the grid has none around.
 */
export function asLonLat(grid: RainGrid, maxNodes: number): RainGrid {
  const nodes = grid.width * grid.height;
  if (grid.projection === undefined && nodes <= maxNodes) return grid;
  const box = degreesOf(grid);
  // A grid on a projection is drawn no finer than it is.
  const [width, height] = sizeFor(box, Math.min(maxNodes, nodes));
  const [west, south, east, north] = box;
  const stepX = (east - west) / (width - 1);
  const stepY = (south - north) / (height - 1);
  const longitude = Float64Array.from(
    { length: width * height },
    (_, i) => west + (i % width) * stepX,
  );
  const latitude = longitude.map((_, i) => north + Math.floor(i / width) * stepY);
  const { mm } = sampleGrid(grid, longitude, latitude, { reachKm: 0, steepRatio: 2 });
  const { source, period } = grid;
  return {
    width,
    height,
    west,
    north,
    stepX,
    stepY,
    mm: Float32Array.from(mm),
    wrapsLongitude: false,
    source,
    period,
  };
}
