import type { Converter } from 'proj4';
import type { GridFrame } from './grid.ts';

/**
 * Between degrees (WGS 84) and the coordinates of a map projection, into `out`: [x, y], NaN where the projection does
 * not reach. Projected coordinates are rounded to a tenth of a millimetre and degrees to 1e-9, because engines differ in
 * the last bits of their trigonometry.
 */
export interface Projector {
  readonly forward: (longitude: number, latitude: number, out: Float64Array) => void;
  readonly inverse: (x: number, y: number, out: Float64Array) => void;
}

type Proj4 = typeof import('proj4');

/** The library, once a grid on a projection has asked for it: most runs never do. */
let library: Proj4 | undefined;
const projectors = new Map<string, Projector>();

/** Must have been awaited before a grid on a projection is sampled; the readers of such grids do so. */
export async function loadProjections(): Promise<void> {
  library ??= (await import('proj4')).default;
}

const finite = (x: number, per: number): number =>
  Number.isFinite(x) ? Math.round(x * per) / per : Number.NaN;

/** One direction of the library's; outside its reach it throws, or gives something that is no number. */
function rounding(way: Converter['forward'], per: number): Projector['forward'] {
  return (a, b, out) => {
    let to: readonly number[];
    try {
      to = way([a, b]);
    } catch {
      to = [];
    }
    out[0] = finite(to[0] ?? Number.NaN, per);
    out[1] = finite(to[1] ?? Number.NaN, per);
  };
}

function made(definition: string): Projector {
  if (library === undefined) throw new Error('loadProjections() must come before a projected grid');
  const converter = library(definition);
  return {
    forward: rounding(converter.forward, 1e4),
    inverse: rounding(converter.inverse, 1e9),
  };
}

/** The projector of a definition text. Throws where the library does not know the projection. */
export function projectorOf(definition: string): Projector {
  const known = projectors.get(definition) ?? made(definition);
  projectors.set(definition, known);
  return known;
}

/** Longitude and latitude of a node, degrees. */
export function placeOfNode(frame: GridFrame, node: number): readonly [number, number] {
  const x = frame.west + (node % frame.width) * frame.stepX;
  const y = frame.north + Math.floor(node / frame.width) * frame.stepY;
  if (frame.projection === undefined) return [x, y];
  const at = new Float64Array(2);
  projectorOf(frame.projection).inverse(x, y, at);
  return [at[0]!, at[1]!];
}
