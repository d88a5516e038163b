import type { Feature, MultiLineString, MultiPolygon, Position } from 'geojson';
import type { Bounds } from '../../analysis/place/bounds.ts';
import { filledBetween, grownByOne, type RainNodes } from '../map/rain/grid.ts';
import { rainFeatures } from '../map/rain/isohyets.ts';
import { levels } from '../map/rain/levels.ts';
import { rainShade } from '../map/rain/ramp.ts';
import { windowsOf } from '../map/rain/window.ts';
import { sheetThemes } from '../map/theme.ts';
import type { Units } from '../parts/quantity.ts';
import type { MapFrame } from './map-frame.ts';

interface Shade {
  readonly d: string;
  readonly fill: string;
}

interface Isohyet {
  readonly d: string;
  readonly main: boolean;
  readonly label: string;
  /** Where its figure is written; null where there is no room. */
  readonly at: readonly [x: number, y: number] | null;
}

/** The rain behind a picture: shading, driest first, and lines of equal rain. */
export interface RainPicture {
  readonly shades: readonly Shade[];
  readonly lines: readonly Isohyet[];
}

/** Nodes across the picture: more are thinned, fewer filled in between. */
const mostAcross = 150;
const fewestAcross = 60;
const mostBetween = 10;
/** Nodes around the picture, so that what closes an area lies off it. */
const around = 3;

/** The nodes that the picture is drawn from; two where the sheet ends and begins again within it. */
function nodesFor(sheet: RainNodes, shows: Bounds): RainNodes[] {
  const across = (shows.east - shows.west) / Math.abs(sheet.stepX);
  const step = 2 ** Math.max(0, Math.ceil(Math.log2(across / mostAcross)));
  const factor = Math.min(mostBetween, Math.max(1, Math.round((fewestAcross * step) / across)));
  return windowsOf(sheet, shows, step, around).map((nodes) =>
    filledBetween(grownByOne(nodes), factor),
  );
}

/** Degrees of latitude from which a picture is one of half a continent. */
export const wideSpan = 12;

type Point = readonly [x: number, y: number];

const drawnLine = (line: readonly Position[], frame: MapFrame): Point[] =>
  line.flatMap(([x, y]) => {
    const at = frame.place(x!, y!);
    return at ? [at] : [];
  });

const pathOf = (lines: readonly (readonly Point[])[], end: '' | 'Z'): string =>
  lines
    .filter((line) => line.length > 1)
    .map((line) => `M${line.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}${end}`)
    .join('');

/**
 * Rings and lines go through the projection point by point: they are dense, and an even-odd fill asks for no winding.
 * Figures stand on land, where the rain is drawn, and keep clear of the places where something is `written` already.
 */
export function rainPicture(
  sheet: RainNodes,
  frame: MapFrame,
  units: Units,
  written: readonly Point[],
  onLand: (point: Point) => boolean,
): RainPicture {
  const features = nodesFor(sheet, frame.shows).flatMap((nodes) => rainFeatures(nodes, units));
  const taken = [...written];
  return {
    shades: features.filter(isBand).map(({ geometry, properties }) => ({
      d: pathOf(
        geometry.coordinates.flat().map((ring) => drawnLine(ring, frame)),
        'Z',
      ),
      fill: rainShade(sheetThemes.light.ramp, Number(properties?.shade)),
    })),
    lines: features
      .filter(isLine)
      .filter(isDrawn(frame, units))
      .map(({ geometry, properties }) => {
        const lines = geometry.coordinates.map((line) => drawnLine(line, frame));
        return {
          d: pathOf(lines, ''),
          main: properties?.main === true,
          label: String(properties?.label),
          at: labelPlace(lines, frame, taken, onLand),
        };
      }),
  };
}

const isBand = (one: Feature<MultiPolygon | MultiLineString>): one is Feature<MultiPolygon> =>
  one.geometry.type === 'MultiPolygon';
const isLine = (one: Feature<MultiPolygon | MultiLineString>): one is Feature<MultiLineString> =>
  one.geometry.type === 'MultiLineString';

/** On a picture of half a continent every second line is enough, the main one among them. */
const isDrawn = ({ shows }: MapFrame, units: Units) => {
  const wide = shows.north - shows.south > wideSpan;
  const few = new Set(levels[units].filter(({ inLegend }) => inLegend).map(({ label }) => label));
  return ({ properties }: Feature) => !wide || few.has(String(properties?.label));
};

/** Room that a figure needs: from the picture's edge, and from other figures. */
const fromEdge = 26;
const apart = 58;

/** The point of a line nearest to the picture's middle on land that keeps clear of figures already written. */
function labelPlace(
  lines: readonly (readonly Point[])[],
  { width, height }: MapFrame,
  taken: Point[],
  onLand: (point: Point) => boolean,
): Point | null {
  const free = lines
    .flat()
    .filter(
      ([x, y]) =>
        x > fromEdge &&
        x < width - fromEdge &&
        y > fromEdge / 2 &&
        y < height - fromEdge / 2 &&
        taken.every(([a, b]) => Math.hypot(a - x, (b - y) * 2) > apart),
    );
  const far = ([x, y]: Point) => Math.hypot(x - width / 2, y - height / 2);
  const best = free.sort((a, b) => far(a) - far(b)).find(onLand) ?? null;
  if (best) taken.push(best);
  return best;
}
