import type { ColumnMap } from '../../analysis/mapping/column-map.ts';
import type { Edit, Inputs, Role, SheetReading } from '../../analysis/session-types.ts';
import { fileSource } from '../client/files.ts';

/** A file at hand: what it is read as, and how. */
export interface HeldFile {
  readonly file: File;
  readonly role: Role;
  readonly reading: SheetReading;
}

/** Everything that is read together: files, maps kept from earlier files, corrections. */
export interface Held {
  readonly files: readonly HeldFile[];
  readonly maps: readonly ColumnMap[];
  readonly edits: readonly Edit[];
}

export const nothingHeld: Held = { files: [], maps: [], edits: [] };

/** Roles that only one file can have. */
const single = (role: Role): boolean => role !== 'walls';

/** Adds a file. One of the same name is replaced, and so is the file that had a role of which there is only one. */
export const withFile = (held: Held, added: HeldFile): Held => ({
  ...held,
  files: [
    ...held.files.filter(
      ({ file, role }) => file.name !== added.file.name && !(single(role) && role === added.role),
    ),
    added,
  ],
});

export const withoutFile = (held: Held, name: string): Held => ({
  ...held,
  files: held.files.filter(({ file }) => file.name !== name),
  edits: held.edits.filter(({ file }) => file !== name),
});

/** Changes what a file is read as; the file that had the role before takes this one's. */
export function withRole(held: Held, name: string, role: Role): Held {
  const own = held.files.find(({ file }) => file.name === name)?.role;
  if (own === undefined || own === role) return held;
  const files = held.files.map((one): HeldFile => {
    if (one.file.name === name) return { ...one, role, reading: {} };
    return single(role) && one.role === role ? { ...one, role: own, reading: {} } : one;
  });
  return { ...held, files };
}

export const withReading = (held: Held, name: string, reading: SheetReading): Held => ({
  ...held,
  files: held.files.map((one) => (one.file.name === name ? { ...one, reading } : one)),
});

/** The inputs that the files make; null while there is no building list among them. */
export function inputsOf({ files, maps, edits }: Held): Inputs | null {
  const sources = (role: Role) =>
    files.filter((one) => one.role === role).map(({ file }) => fileSource(file));
  const [buildings] = sources('buildings');
  if (!buildings) return null;
  const walls = sources('walls');
  const side = (['rain', 'wind', 'temperature', 'stations', 'weather'] as const).flatMap((role) =>
    sources(role).map((source) => [role, source]),
  );
  return {
    buildings,
    ...(walls.length > 0 ? { walls } : {}),
    ...Object.fromEntries(side),
    sheets: Object.fromEntries(files.map(({ file, reading }) => [file.name, reading])),
    maps,
    edits,
  };
}
