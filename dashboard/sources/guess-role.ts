import type { SheetShape } from '../../analysis/mapping/column-map.ts';
import type { Role } from '../../analysis/session-types.ts';

/** Words in a file's name that tell what it most likely is, tried in this order. */
const words: readonly (readonly [RegExp, Role])[] = [
  [/hourly|metar|airfield|weather/, 'weather'],
  [/station|gauge|normals/, 'stations'],
  [/temp(?:erature)?[^a-z]|tmean|tavg/, 'temperature'],
  [/wind(?!ow)/, 'wind'],
  [/rain|precip|prcp|isohyet/, 'rain'],
  [/wall|clad|facade|fassade|elevation|inspection/, 'walls'],
  [/build|propert|site|location|schedule|portfolio/, 'buildings'],
];

const gridEnding = /\.(?:tiff?|nc4?|h5|asc|grd)$/;

/** What a file most likely is, by its name; null where the name says nothing. A grid's ending speaks of a grid. */
export function guessRole(fileName: string): Role | null {
  const name = fileName.toLowerCase();
  const found = words.find(([pattern]) => pattern.test(name))?.[1] ?? null;
  if (!gridEnding.test(name)) return found;
  return found === 'wind' || found === 'temperature' ? found : 'rain';
}

/** What a table is, by what its columns hold. */
export const roleOfShape = (shape: SheetShape): 'buildings' | 'walls' =>
  shape === 'walls' ? 'walls' : 'buildings';
