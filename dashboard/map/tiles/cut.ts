import { type GeoStream, geoIdentity } from 'd3';
import { extent, type TileFeature } from './encode.ts';
import { labelsAlong, type MayWrite } from './labels.ts';
import type { TileId } from './mercator.ts';
import { type Line, polygonsOf } from './rings.ts';
import { lineSink, type Path, type Shape, simplified } from './shapes.ts';

/** How far a tile reaches over its edge, tile units, so that strokes meet. */
const overlap = 96;
/** Finest detail of a tile, in its own units: half a pixel. */
const detail = 4;

/** Shapes with the detail of a zoom, and without rings smaller than so many pixels. */
export function atZoom(shapes: readonly Shape[], zoom: number, smallestPx: number): Shape[] {
  const unit = 1 / extent / 2 ** zoom;
  const smallest = (smallestPx * extent * unit) / 512;
  return shapes.map((shape) => simplified(shape, detail * unit, smallest));
}

/**
 * Cuts lines and areas into a vector tile: features in the order of the shapes, positions in tile units.
 * d3's rectangle clip rejoins a ring along the tile's edge; cutters that leave holes lying on the edge of their area
 * give the triangulation what it cannot solve, and whole tiles filled.
 * @param mayWrite where the figures of lines may stand
 */
export function cutShapes(
  shapes: readonly Shape[],
  tile: TileId,
  mayWrite: MayWrite = () => true,
): TileFeature[] {
  return shapes.flatMap((shape) => cutShape(shape, tile, mayWrite));
}

function cutShape(shape: Shape, tile: TileId, mayWrite: MayWrite): TileFeature[] {
  const paths = shape.paths.filter((path) => touches(path, tile));
  if (paths.length === 0) return [];
  const inside = paths.filter((path) => isWithin(path, tile));
  const crossing = paths.filter((path) => !isWithin(path, tile));
  const lines = [
    ...drawn(inside, shape.area, tile, (sink) => sink),
    ...drawn(crossing, shape.area, tile, (sink) => clip.stream(sink)),
  ].filter((line) => line.length > (shape.area ? 2 : 1));
  const { properties } = shape;
  if (shape.area) return polygonsOf(lines).map((geometry) => ({ type: 3, properties, geometry }));
  if (lines.length === 0) return [];
  return [{ type: 2, properties, geometry: lines }, ...labelsAlong(lines, properties, mayWrite)];
}

const margin = overlap / extent;

function touches(path: Path, { z, x, y }: TileId): boolean {
  const scale = 2 ** z;
  return (
    path.east * scale >= x - margin &&
    path.west * scale <= x + 1 + margin &&
    path.south * scale >= y - margin &&
    path.north * scale <= y + 1 + margin
  );
}

/** Whether a path needs no clipping: most of a coarse tile's do not, and clipping is the slow part. */
function isWithin(path: Path, { z, x, y }: TileId): boolean {
  const scale = 2 ** z;
  return (
    path.west * scale > x - margin &&
    path.east * scale < x + 1 + margin &&
    path.north * scale > y - margin &&
    path.south * scale < y + 1 + margin
  );
}

const clip = geoIdentity().clipExtent([
  [-overlap, -overlap],
  [extent + overlap, extent + overlap],
]);

/** Paths in tile units, led through a clip; rings come out open. */
function drawn(
  paths: readonly Path[],
  area: boolean,
  { z, x, y }: TileId,
  through: (sink: GeoStream) => GeoStream,
): Line[] {
  const sink = lineSink();
  const stream = through(sink.stream);
  const scale = 2 ** z;
  if (area) stream.polygonStart();
  for (const { points } of paths) {
    // A ring's last point repeats its first, which is supplied when it is closed.
    const end = area ? points.length - 2 : points.length;
    stream.lineStart();
    for (let i = 0; i < end; i += 2) {
      stream.point((points[i]! * scale - x) * extent, (points[i + 1]! * scale - y) * extent);
    }
    stream.lineEnd();
  }
  if (area) stream.polygonEnd();
  return sink.lines.map(snapped);
}

/** In whole tile units, each point once. */
function snapped(line: readonly (readonly [number, number])[]): Line {
  const points: Line = [];
  for (const [px, py] of line) {
    const [x, y] = [Math.round(px), Math.round(py)];
    const before = points.at(-1);
    if (before?.x !== x || before.y !== y) points.push({ x, y });
  }
  return points;
}
