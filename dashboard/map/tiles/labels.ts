import { extent, type TileFeature, type TilePoint } from './encode.ts';
import type { Line } from './rings.ts';
import type { Properties } from './shapes.ts';

/** Tile units to a CSS pixel: tiles are 512 px wide. */
const unit = extent / 512;
/** Length of line that a label of so many letters covers, and of line to one label. */
const spanOf = (label: string) => (6.2 * label.length + 6) * unit;
const labelEvery = 280 * unit;
/** Distance between the places that are tried. */
const tryEvery = 5 * unit;

/** Says of a point, in tile units, whether it may be written on. */
export type MayWrite = (point: TilePoint) => boolean;

/**
 * Where the figures of a line are written: on each stretch, at its straightest place inside the tile that may be written on
 * from end to end. Points with `kind: 'figure'`, the line's other properties, `angle` (degrees, never upside down) and
 * `bend` (0 straight).
 */
export function labelsAlong(
  lines: readonly Line[],
  properties: Properties,
  mayWrite: MayWrite,
): TileFeature[] {
  if (!('label' in properties)) return [];
  const places = lines.flatMap((line) =>
    straightestPlaces(line, spanOf(String(properties.label)), mayWrite),
  );
  return places.map(({ at, angle, bend }) => ({
    type: 1,
    properties: { ...properties, kind: 'figure', angle, bend },
    geometry: [[at]],
  }));
}

interface LabelPlace {
  /** Both ends and the middle. */
  readonly covers: readonly TilePoint[];
  readonly at: TilePoint;
  readonly angle: number;
  readonly bend: number;
}

function straightestPlaces(line: Line, span: number, mayWrite: MayWrite): LabelPlace[] {
  const along = lengthsAlong(line);
  const best = new Map<number, LabelPlace>();
  let tried = -tryEvery;
  line.forEach((at, i) => {
    if (along[i]! - tried < tryEvery || !isInside(at)) return;
    tried = along[i]!;
    const place = placeAround(line, along, i, span);
    if (!place) return;
    const stretch = Math.floor(along[i]! / labelEvery);
    const rival = best.get(stretch);
    if (rival && place.bend >= rival.bend) return;
    if (place.covers.every(mayWrite)) best.set(stretch, place);
  });
  return [...best.values()];
}

/** Distance from the line's start to each of its points. */
function lengthsAlong(line: Line): Float64Array {
  const along = new Float64Array(line.length);
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1]!, line[i]!];
    along[i] = along[i - 1]! + Math.hypot(b.x - a.x, b.y - a.y);
  }
  return along;
}

/** A label centred on point `i`, or none where the line is too short on either side. */
function placeAround(
  line: Line,
  along: Float64Array,
  i: number,
  span: number,
): LabelPlace | undefined {
  let [from, to] = [i, i];
  while (from > 0 && along[i]! - along[from]! < span / 2) from--;
  while (to < line.length - 1 && along[to]! - along[i]! < span / 2) to++;
  const length = along[to]! - along[from]!;
  if (length < span * 0.9) return undefined;
  const covers = [line[from]!, line[i]!, line[to]!];
  const [dx, dy] = [line[to]!.x - line[from]!.x, line[to]!.y - line[from]!.y];
  const bend = Math.round((1 - Math.hypot(dx, dy) / length) * 100) / 100;
  return { covers, at: line[i]!, angle: upright((Math.atan2(dy, dx) * 180) / Math.PI), bend };
}

/** The same direction, read from the left. */
const upright = (degrees: number): number =>
  Math.round(degrees > 90 ? degrees - 180 : degrees < -90 ? degrees + 180 : degrees);

const isInside = ({ x, y }: TilePoint) => x >= 0 && x < extent && y >= 0 && y < extent;
