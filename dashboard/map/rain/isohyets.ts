import { contours } from 'd3';
import type { Feature, MultiLineString, MultiPolygon, Position } from 'geojson';
import type { RainNodes } from './grid.ts';
import { type Band, bandsOf, levels, type Units } from './levels.ts';

type Geometry = MultiPolygon | MultiLineString;
/** Polygons of rings, counted in nodes. */
type Area = Position[][][];

/** Times that corners are cut. */
const roundings = 2;

/**
 * Shading and lines of a rain sheet as GeoJSON, degrees. Areas carry `kind: 'band'` and `shade` (mm), each covering
 * everything at least as wet, driest first, to be painted in that order; lines carry `kind: 'isohyet'`, `label`, `main`
 * and leave out the parts that only follow the end of the data.
 */
export function rainFeatures(nodes: RainNodes, units: Units): Feature<Geometry>[] {
  const edges = bandsOf(units)
    .map((band) => ({ band, area: atLeast(nodes, band.from) }))
    .filter(({ area }) => area.length > 0);
  return [
    ...edges.map(({ band, area }) => bandArea(nodes, band, area)),
    ...edges.flatMap(({ band, area }) => isohyet(nodes, units, band, area)),
  ];
}

function bandArea(nodes: RainNodes, { shade }: Band, area: Area): Feature<MultiPolygon> {
  const coordinates = area.map((polygon) =>
    polygon.map((ring) => inDegrees(nodes, rounded(ring, roundings))),
  );
  const geometry = { type: 'MultiPolygon', coordinates } as const;
  return { type: 'Feature', properties: { kind: 'band', shade }, geometry };
}

/** The line along a band's lower edge; the driest band has none. */
function isohyet(
  nodes: RainNodes,
  units: Units,
  band: Band,
  area: Area,
): Feature<MultiLineString>[] {
  const level = levels[units].find(({ mm }) => mm === band.from);
  const lines = area.flatMap((polygon) => polygon.flatMap((ring) => insideData(nodes, ring)));
  if (!level || lines.length === 0) return [];
  const coordinates = lines.map((line) => inDegrees(nodes, rounded(line, roundings)));
  const geometry = { type: 'MultiLineString', coordinates } as const;
  const { label, main } = level;
  return [{ type: 'Feature', properties: { kind: 'isohyet', label, main }, geometry }];
}

function atLeast({ width, height, mm }: RainNodes, value: number): Area {
  const values = mm as unknown as number[];
  return contours().size([width, height]).smooth(true).contour(values, value).coordinates;
}

/** d3 puts the value of node (i, j) at (i + ½, j + ½). */
const inDegrees = ({ west, north, stepX, stepY }: RainNodes, line: Position[]): Position[] =>
  line.map((point) => [west + (point[0]! - 0.5) * stepX, north + (point[1]! - 0.5) * stepY]);

/** A line along the edge of the data runs from node to node: to be within, it must have data on both sides. */
const eitherSide = 1e-3;

/** Cuts a ring where it leaves the squares of four nodes that all have data: there it closes an area, no more. */
function insideData(nodes: RainNodes, ring: Position[]): Position[][] {
  const lines: Position[][] = [];
  let line: Position[] = [];
  const end = () => {
    if (line.length > 1) lines.push(line);
    line = [];
  };
  for (let i = 1; i < ring.length; i++) {
    const [from, to] = [ring[i - 1]!, ring[i]!];
    const [x, y] = [(from[0]! + to[0]!) / 2, (from[1]! + to[1]!) / 2];
    const within =
      hasDataAround(nodes, x - eitherSide, y - eitherSide) &&
      hasDataAround(nodes, x + eitherSide, y + eitherSide);
    if (!within) end();
    else line.push(...(line.length > 0 ? [to] : [from, to]));
  }
  end();
  return joined(lines, ring);
}

/** A ring is cut at its first point only by the way it is written down. */
function joined(lines: Position[][], ring: Position[]): Position[][] {
  const [first, last] = [lines[0], lines.at(-1)];
  const seam = ring[0]!;
  if (!first || !last || first === last || first[0] !== seam || last.at(-1) !== ring.at(-1))
    return lines;
  return [[...last, ...first.slice(1)], ...lines.slice(1, -1)];
}

function hasDataAround({ width, height, mm }: RainNodes, x: number, y: number): boolean {
  const [left, top] = [Math.floor(x - 0.5), Math.floor(y - 0.5)];
  if (left < 0 || top < 0 || left + 1 >= width || top + 1 >= height) return false;
  const at = top * width + left;
  return !Number.isNaN(mm[at]! + mm[at + 1]! + mm[at + width]! + mm[at + width + 1]!);
}

/**
 * Rounds a line's corners by cutting each at a quarter of its sides (Chaikin). It moves the line by less than a fifth of
 * the space between nodes; ends stay, and a closed line stays closed.
 */
export function rounded(line: Position[], times: number): Position[] {
  if (times === 0 || line.length < 3) return line;
  const isRing = line[0]![0] === line.at(-1)![0] && line[0]![1] === line.at(-1)![1];
  const cut: Position[] = isRing ? [] : [line[0]!];
  for (let i = 1; i < line.length; i++) {
    const [from, to] = [line[i - 1]!, line[i]!];
    if (isRing || i > 1) cut.push(mix(from, to, 0.25));
    if (isRing || i < line.length - 1) cut.push(mix(from, to, 0.75));
  }
  cut.push(isRing ? cut[0]! : line.at(-1)!);
  return rounded(cut, times - 1);
}

const mix = (a: Position, b: Position, t: number): Position => [
  a[0]! + (b[0]! - a[0]!) * t,
  a[1]! + (b[1]! - a[1]!) * t,
];
