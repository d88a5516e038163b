import { Refusal } from '../../read/outcome.ts';
import type { GridFrame } from '../grid.ts';
import { closesCircle } from './raster.ts';
import { isTime, isTimeName } from './time.ts';
import { textOf, type Variable, whole } from './variables.ts';

/** A dimension of a variable, by its place among the dimensions, with its coordinates. */
interface AxisOf {
  readonly position: number;
  readonly size: number;
  readonly variable: Variable;
}

/** Where longitude, latitude and time stand among the dimensions of a variable. */
export interface Axes {
  readonly longitude: AxisOf;
  readonly latitude: AxisOf;
  readonly time: (Omit<AxisOf, 'variable'> & { readonly variable: Variable | null }) | null;
}

type Which = 'longitude' | 'latitude';

/** Units and names of coordinates (CF 1.11, 4.1 and 4.2). */
const spelt: Readonly<Record<Which, { readonly units: RegExp; readonly names: RegExp }>> = {
  longitude: { units: /^degrees?_?(e|east)$/i, names: /^(lon|long|longitude|x)$/i },
  latitude: { units: /^degrees?_?(n|north)$/i, names: /^(lat|latitude|y)$/i },
};

function isAxis(variable: Variable, which: Which): boolean {
  const units = textOf(variable, 'units');
  const { units: known, names } = spelt[which];
  if (textOf(variable, 'standard_name') === which || known.test(units)) return true;
  return names.test(variable.name) && (units === '' || /^degrees?$/i.test(units));
}

/** The variable with one dimension that holds the coordinates of a dimension. */
const coordinates = (name: string, variables: readonly Variable[]): Variable | undefined =>
  variables.find(
    (v) => v.dimensions.length === 1 && v.dimensions[0]!.name === name && v.name === name,
  ) ??
  variables.find(
    (v) =>
      v.dimensions.length === 1 &&
      v.dimensions[0]!.name === name &&
      (isAxis(v, 'longitude') || isAxis(v, 'latitude')),
  );

/** The axes of a variable; null where it has none of longitude or latitude, or more than one layer of anything but time. */
export function axesOf(variable: Variable, variables: readonly Variable[]): Axes | null {
  const places = variable.dimensions.map(({ name, size }, position) => ({
    name,
    position,
    size,
    variable: coordinates(name, variables) ?? null,
  }));
  const along = (which: Which): AxisOf | undefined => {
    const place = places.find((p) => p.variable && isAxis(p.variable, which));
    return place && { ...place, variable: place.variable! };
  };
  const [longitude, latitude] = [along('longitude'), along('latitude')];
  if (!longitude || !latitude) return null;
  const others = places.filter(
    ({ position }) => position !== longitude.position && position !== latitude.position,
  );
  const time = others.find((p) => (p.variable ? isTime(p.variable) : isTimeName(p.name))) ?? null;
  const alone = others.every((p) => p === time || p.size === 1);
  return alone ? { longitude, latitude, time } : null;
}

/** A coordinate may be off its place by this share of the step: people store them as short decimals or floats. */
const tolerance = 0.02;

/** First coordinate and even step of an axis, either way. */
function evenly(
  file: string,
  which: Which,
  values: Float64Array,
): readonly [first: number, step: number] {
  if (values.length < 2) {
    throw new Refusal(
      file,
      `${file} has one ${which} only. A grid needs two rows and two columns or more.`,
    );
  }
  const first = values[0]!;
  const step = (values.at(-1)! - first) / (values.length - 1);
  const off = values.find(
    (x, k) => !(Math.abs(x - first - k * step) <= tolerance * Math.abs(step)),
  );
  if (off === undefined && step !== 0) return [nine(first), nine(step)];
  throw new Refusal(
    file,
    `The ${which}s of ${file} are not evenly spaced: ${off ?? first} lies between the steps of ${Number(step.toPrecision(4))}°. Save it on an even grid with the program it comes from.`,
  );
}

/** Coordinates are told apart to 1e-9 degrees. */
const nine = (x: number): number => Math.round(x * 1e9) / 1e9;

/** Longitudes that jump back by a turn on the way, made to go on. */
function goingOn(values: Float64Array): Float64Array {
  const out = values.slice();
  for (let k = 1; k < out.length; k++) {
    const turns = Math.round((out[k]! - out[k - 1]!) / 360);
    out[k] = out[k]! - 360 * turns;
  }
  return out;
}

/** Nodes from west to east; mirrored where the file runs from east to west. */
export interface AxesLayout {
  readonly frame: GridFrame;
  readonly mirrored: boolean;
}

/** Where the nodes stand; uneven axes are refused. */
export async function layoutOf(file: string, { longitude, latitude }: Axes): Promise<AxesLayout> {
  const xs = goingOn(await whole(longitude.variable));
  const ys = await whole(latitude.variable);
  const [first, step] = evenly(file, 'longitude', xs);
  const [north, stepY] = evenly(file, 'latitude', ys);
  if (ys.some((y) => Math.abs(y) > 90.0001)) {
    throw new Refusal(file, `The latitudes of ${file} go beyond ±90. Are its coordinates degrees?`);
  }
  const mirrored = step < 0;
  const stepX = Math.abs(step);
  const frame: GridFrame = {
    width: xs.length,
    height: ys.length,
    west: mirrored ? first + (xs.length - 1) * step : first,
    north,
    stepX,
    stepY,
    wrapsLongitude: closesCircle(xs.length, stepX),
  };
  return { frame, mirrored };
}
