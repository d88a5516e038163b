import { type GeoStream, geoMercator, geoStream } from 'd3';
import type { Feature, Geometry, Position } from 'geojson';
import { mercatorY, worldSize } from './mercator.ts';

export type Properties = Readonly<Record<string, string | number | boolean>>;

/** A line, or one ring of an area, on a world of side 1, y growing south. */
export interface Path {
  /** x, y, x, y, … */
  readonly points: Float64Array;
  readonly west: number;
  readonly east: number;
  readonly north: number;
  readonly south: number;
}

/** Something to cut into tiles. Rings of an area run one way, those of its holes the other. */
export interface Shape {
  readonly properties: Properties;
  readonly area: boolean;
  readonly paths: readonly Path[];
}

/** d3's Mercator on a world of side 1: cuts at 180° and at the poles, and draws straight from point to point. */
const mercator = geoMercator()
  .scale(1 / (2 * Math.PI))
  .translate([0.5, 0.5])
  .precision(0);

/**
 * GeoJSON on the sphere as a shape: rings may cross 180° and enclose a pole, and enclose what lies on the side that d3
 * takes for the inside (topojson's winding).
 */
export function sphereShape(properties: Properties, geometry: Geometry): Shape {
  const sink = lineSink();
  geoStream(geometry, mercator.stream(sink.stream));
  const area = geometry.type.endsWith('Polygon');
  const lines = area ? sink.lines.map(overEdges).map((ring) => [...ring, ring[0]!]) : sink.lines;
  return { properties, area, paths: lines.map((line) => pathOf(Float64Array.from(line.flat()))) };
}

/** How far areas that were cut at 180° reach over the world's edge: further than the coarsest tile reaches over its own. */
const over = 0.02;

/** An open ring whose run along an edge of the world lies beyond it, so that areas meet where the world begins again. */
function overEdges(ring: FlatLine): FlatLine {
  const edgeOf = ([x]: FlatLine[number]): number => (x < 1e-9 ? -1 : x > 1 - 1e-9 ? 1 : 0);
  return ring.flatMap((point, i) => {
    const edge = edgeOf(point);
    if (edge === 0) return [point];
    const [before, after] = [ring.at(i - 1)!, ring[(i + 1) % ring.length]!];
    const beyond: FlatLine[number] = [point[0] + edge * over, point[1]];
    const into = edgeOf(before) === edge ? [] : [point];
    return [...into, beyond, ...(edgeOf(after) === edge ? [] : [point])];
  });
}

/** GeoJSON drawn flat, in degrees, as a shape; longitudes may lie beyond ±180; points and collections are not drawn this way. */
export function shapeOf({ geometry, properties }: Feature): Shape {
  return {
    properties: properties as Properties,
    area: geometry.type.endsWith('Polygon'),
    paths: linesOf(geometry).map((line) => pathOf(projected(line))),
  };
}

function projected(line: readonly Position[]): Float64Array {
  const points = new Float64Array(line.length * 2);
  line.forEach(([longitude, latitude], i) => {
    points[2 * i] = (longitude! + 180) / 360;
    points[2 * i + 1] = mercatorY(latitude!) / worldSize;
  });
  return points;
}

function linesOf(geometry: Geometry): Position[][] {
  switch (geometry.type) {
    case 'LineString':
      return [geometry.coordinates];
    case 'MultiLineString':
    case 'Polygon':
      return geometry.coordinates;
    case 'MultiPolygon':
      return geometry.coordinates.flat();
    default:
      throw new Error(`no lines in a ${geometry.type}`);
  }
}

function pathOf(points: Float64Array): Path {
  let [west, east, north, south] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < points.length; i += 2) {
    west = Math.min(west, points[i]!);
    east = Math.max(east, points[i]!);
    north = Math.min(north, points[i + 1]!);
    south = Math.max(south, points[i + 1]!);
  }
  return { points, west, east, north, south };
}

/**
 * The shape without detail finer than `tolerance` and without closed paths smaller than `smallest`, in world sides:
 * near points go, and rings that would be no more than a dot.
 */
export function simplified(shape: Shape, tolerance: number, smallest: number): Shape {
  const isDot = (path: Path) =>
    path.east - path.west < smallest && path.south - path.north < smallest && isClosed(path);
  const paths = shape.paths
    .filter((path) => !isDot(path))
    .map((path) => ({
      ...path,
      points: withoutStraight(withoutNear(path.points, tolerance), tolerance / 2),
    }));
  return { ...shape, paths };
}

const isClosed = ({ points }: Path) => points[0] === points.at(-2) && points[1] === points.at(-1);

/** Keeps the ends, and every point farther than `tolerance` from the last one kept. */
function withoutNear(points: Float64Array, tolerance: number): Float64Array {
  const kept = new Float64Array(points.length);
  const last = points.length - 2;
  let length = 0;
  for (let i = 0; i <= last; i += 2) {
    const dx = Math.abs(points[i]! - kept[length - 2]!);
    const dy = Math.abs(points[i + 1]! - kept[length - 1]!);
    if (i > 0 && i < last && dx <= tolerance && dy <= tolerance) continue;
    kept[length++] = points[i]!;
    kept[length++] = points[i + 1]!;
  }
  return kept.slice(0, length);
}

/** Drops points that lie within `tolerance` of the line between those that stay (Douglas and Peucker 1973). */
function withoutStraight(points: Float64Array, tolerance: number): Float64Array {
  const last = points.length / 2 - 1;
  const stays = new Uint8Array(last + 1);
  stays[0] = stays[last] = 1;
  const spans: (readonly [number, number])[] = [[0, last]];
  for (let span = spans.pop(); span; span = spans.pop()) {
    const [from, to] = span;
    const middle = farthest(points, from, to, tolerance);
    if (middle === undefined) continue;
    stays[middle] = 1;
    spans.push([from, middle], [middle, to]);
  }
  return points.filter((_, i) => stays[i >> 1] === 1);
}

/** The point between two others that lies farthest from the line between them, if farther than `tolerance`. */
function farthest(
  points: Float64Array,
  from: number,
  to: number,
  tolerance: number,
): number | undefined {
  const [x, y] = [points[2 * from]!, points[2 * from + 1]!];
  const [dx, dy] = [points[2 * to]! - x, points[2 * to + 1]! - y];
  const length = dx * dx + dy * dy;
  let [most, found]: [number, number | undefined] = [tolerance * tolerance, undefined];
  for (let i = from + 1; i < to; i++) {
    const [px, py] = [points[2 * i]! - x, points[2 * i + 1]! - y];
    const along = length > 0 ? Math.min(1, Math.max(0, (px * dx + py * dy) / length)) : 0;
    const away = (px - along * dx) ** 2 + (py - along * dy) ** 2;
    if (away > most) [most, found] = [away, i];
  }
  return found;
}

type FlatLine = [x: number, y: number][];

/** Gathers what a d3 stream draws; rings come out open. */
export function lineSink(): { readonly stream: GeoStream; readonly lines: FlatLine[] } {
  const lines: FlatLine[] = [];
  const stream: GeoStream = {
    lineStart: () => lines.push([]),
    point: (x, y) => lines.at(-1)!.push([x, y]),
    lineEnd: () => {},
    polygonStart: () => {},
    polygonEnd: () => {},
    sphere: () => {},
  };
  return { stream, lines };
}
