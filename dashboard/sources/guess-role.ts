import type { Role } from '../../analysis/session-types.ts';

/** What a dropped file most likely is, by its name; null where the name says nothing. */
export function guessRole(fileName: string): Role | null {
  const name = fileName.toLowerCase();
  if (/wall|clad|facade|fassade|elevation/.test(name)) return 'walls';
  if (/hourly|metar|airfield|weather|wind(?!ow)/.test(name)) return 'weather';
  if (/station|gauge|normals/.test(name)) return 'stations';
  if (/rain|precip|grid/.test(name)) return 'rain';
  if (/build|propert|site|location|schedule|portfolio/.test(name)) return 'buildings';
  return null;
}

export type Picked = Readonly<Record<Role, File | null>>;

export const nothingPicked: Picked = {
  buildings: null,
  walls: null,
  rain: null,
  stations: null,
  weather: null,
};

const roles: readonly Role[] = ['buildings', 'walls', 'rain'];

/** Puts dropped files where their names say, the others into the first free places. */
export function place(picked: Picked, files: readonly File[]): Picked {
  const held = { ...picked };
  for (const file of files) {
    const role = guessRole(file.name) ?? roles.find((free) => held[free] === null);
    if (role) held[role] = file;
  }
  return held;
}
