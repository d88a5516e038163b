import { readFileSync } from 'node:fs';
import { readCorrections } from '../corrections.ts';
import type { ColumnMap } from '../mapping/column-map.ts';
import { readMaps } from '../mapping/maps-file.ts';
import { Refusal } from '../read/outcome.ts';
import type { Edit, Inputs } from '../session-types.ts';
import { defaultSettings, type Settings, type SettingsChanges, withSettings } from '../settings.ts';
import { fileSource } from './files.ts';
import { type Flags, one, whole } from './flags.ts';

export const inputFlags = {
  buildings: {
    value: 'F',
    help: 'building list: CSV, XLSX, GeoJSON, JSON or Parquet',
    needed: true,
  },
  walls: {
    value: 'F',
    help: 'cladding records, given again for more files; without them every wall is unknown',
    many: true,
  },
  rain: { value: 'F', help: 'your own rain grid: GeoTIFF, NetCDF, Esri ASCII grid or CSV' },
  wind: { value: 'F', help: 'grid of the all-hours mean wind, for the driving-rain index' },
  temperature: { value: 'F', help: 'grid of the mean temperature, where the list has none' },
  stations: {
    value: 'F.csv',
    help: 'rain stations that adjust the grid: latitude, longitude, normal',
  },
  weather: {
    value: 'F.csv',
    help: 'hourly weather record: its wind during rain for the whole portfolio',
  },
  map: { value: 'F.json', help: 'column maps; a file with the same headings is read by them' },
  corrections: {
    value: 'F.csv',
    help: 'table of remarks with your corrections written in',
  },
} as const;

export const runFlags = {
  settings: { value: 'F.json', help: 'settings to change, or the .about.json of an earlier run' },
  'as-of': {
    value: 'YEAR',
    help: `year in which the portfolio is looked at (${defaultSettings.constants.as_of})`,
  },
} as const;

const beside = ['rain', 'wind', 'temperature', 'stations', 'weather'] as const;

/** The files that the flags name. Throws a Refusal where one is not there. */
export async function inputsOf(flags: Flags): Promise<Inputs> {
  const side = beside.flatMap((role) => {
    const path = one(flags, role);
    return path === undefined ? [] : [[role, fileSource(path)]];
  });
  const walls = [flags.walls ?? []].flat().map(fileSource);
  const corrections = one(flags, 'corrections');
  const repeated = repeatedBy(one(flags, 'settings'));
  const own = corrections ? await readCorrections(fileSource(corrections)) : [];
  return {
    buildings: fileSource(one(flags, 'buildings')!),
    ...(walls.length > 0 ? { walls } : {}),
    ...Object.fromEntries(side),
    maps: [...mapsOf(flags), ...repeated.maps],
    edits: [...repeated.edits, ...own],
  };
}

function mapsOf(flags: Flags): readonly ColumnMap[] {
  const path = one(flags, 'map');
  return path === undefined ? [] : readMaps(text(path), path);
}

/** What the sidecar of an earlier run says of maps and edits, so that given back it repeats the run. */
function repeatedBy(path: string | undefined): { maps: readonly ColumnMap[]; edits: Edit[] } {
  if (path === undefined) return { maps: [], edits: [] };
  const { maps, edits } = jsonObject(path);
  return {
    maps: maps === undefined ? [] : readMaps(JSON.stringify(maps), path),
    edits: Array.isArray(edits) ? (edits as Edit[]) : [],
  };
}

export function settingsOf(flags: Flags): Settings {
  const path = one(flags, 'settings');
  const changes = path === undefined ? {} : settingsFile(path);
  if (flags['as-of'] === undefined) return withSettings(changes);
  const constants = { ...changes.constants, as_of: whole(flags, 'as-of', 0) };
  return withSettings({ ...changes, constants });
}

/** A settings file, or the sidecar of an earlier run, whose settings stand under that name. */
function settingsFile(path: string): SettingsChanges {
  const parsed = jsonObject(path);
  return 'software' in parsed ? (parsed.settings as SettingsChanges) : parsed;
}

function text(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    throw new Refusal(path, `There is no file ${path}, or it may not be read. Check the path.`);
  }
}

function jsonObject(path: string): Record<string, unknown> {
  try {
    const parsed: unknown = JSON.parse(text(path));
    if (parsed && typeof parsed === 'object' && !Array.isArray(parsed)) {
      return parsed as Record<string, unknown>;
    }
  } catch (cause) {
    if (cause instanceof Refusal) throw cause;
    const why = cause instanceof Error ? cause.message : cause;
    throw new Refusal(path, `${path} is not a settings file: ${why}.`);
  }
  throw new Refusal(path, `${path} is not a settings file: a JSON object is needed.`);
}
