import { feature, mesh } from 'topojson-client';
import type { Bounds } from '../../analysis/place/bounds.ts';
import type { RainSheet } from '../../analysis/session-types.ts';
import { places } from '../map/places.ts';
import type { LandSources } from '../map/tiles/land.ts';
import type { Units } from '../parts/quantity.ts';
import { type FrameSize, frameOf, type MapFrame } from './map-frame.ts';
import { type RainPicture, rainPicture, wideSpan } from './rain-picture.ts';

interface Name {
  readonly name: string;
  readonly kind: 'region' | 'city';
  readonly x: number;
  readonly y: number;
}

/** A map on paper, ready to be drawn: paths in units of the frame. */
export interface Picture {
  readonly frame: MapFrame;
  readonly land: string;
  readonly lakes: string;
  readonly states: string;
  readonly countries: string;
  readonly rain: RainPicture;
  readonly names: readonly Name[];
  readonly bar: { readonly width: number; readonly words: string };
}

const kmPerMile = 1.609344;

/** The longest of 1, 2 and 5 times a power of ten that is not longer than this. */
export function roundLength(longest: number): number {
  const power = 10 ** Math.floor(Math.log10(longest) + 1e-9);
  return ([5, 2, 1].find((times) => times * power <= longest * (1 + 1e-9)) ?? 1) * power;
}

function barOf({ width, unitsPerKm }: MapFrame, units: Units): Picture['bar'] {
  const [unit, km] = units === 'metric' ? (['km', 1] as const) : (['mi', kmPerMile] as const);
  const length = roundLength(width / 4 / unitsPerKm / km);
  return { width: length * km * unitsPerKm, words: `${length.toLocaleString('en-US')} ${unit}` };
}

/** Names written on the picture: further ones are left out where one already stands close by. */
const clear = { x: 78, y: 16 };

function namesIn(frame: MapFrame): Name[] {
  const written: Name[] = [];
  const wide = frame.shows.north - frame.shows.south > wideSpan;
  const wanted = places
    .filter(({ kind }) => kind === 'city' || (kind === 'region' && !wide))
    .sort((a, b) => a.rank - b.rank);
  for (const { name, kind, longitude, latitude } of wanted) {
    const [x, y] = frame.place(longitude, latitude) ?? [-1, -1];
    const inside = x > 12 && x < frame.width - 40 && y > 12 && y < frame.height - 8;
    const room = written.every(
      (one) => Math.abs(one.x - x) > clear.x || Math.abs(one.y - y) > clear.y,
    );
    if (inside && room) written.push({ name, kind: kind === 'city' ? 'city' : 'region', x, y });
  }
  return written;
}

const between = (a: unknown, b: unknown): boolean => a !== b;

/** Whether a point lies within an SVG path. */
function insideOf(path: string): (point: readonly [x: number, y: number]) => boolean {
  const context = document.createElement('canvas').getContext('2d');
  const area = new Path2D(path);
  return ([x, y]) => context?.isPointInPath(area, x, y) ?? false;
}

/** A city's name stands to the right of its dot: to its middle, units of the picture. */
const halfName = 22;

/** The picture of these bounds with the rain behind it; figures keep clear of the place `marked`. */
export function pictureOf(
  bounds: Bounds,
  size: FrameSize,
  { countries, states, inland }: LandSources,
  sheet: RainSheet,
  units: Units,
  marked?: readonly [longitude: number, latitude: number],
): Picture {
  const frame = frameOf(bounds, size);
  const names = namesIn(frame);
  const drawn = (shape: Parameters<MapFrame['path']>[0]) => frame.path(shape) ?? '';
  const land = drawn(feature(countries, countries.objects.land));
  const ofKind = (kind: string) => ({
    ...inland,
    features: inland.features.filter(({ properties }) => properties?.kind === kind),
  });
  const written = names.map(({ x, y, kind }) => [kind === 'city' ? x + halfName : x, y] as const);
  const here = marked && frame.place(...marked);
  return {
    frame,
    land,
    lakes: drawn(ofKind('lake')),
    states: drawn(mesh(states, states.objects.states, between)) + drawn(ofKind('province')),
    countries: drawn(mesh(countries, countries.objects.countries, between)),
    rain: rainPicture(sheet, frame, units, here ? [here, ...written] : written, insideOf(land)),
    names,
    bar: barOf(frame, units),
  };
}
