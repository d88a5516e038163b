import { readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { generateDemo } from '../../data/demo/generate.ts';
import { openNative } from '../engine/native.ts';
import { setAsideText } from '../export/set-aside.ts';
import { readInputs } from '../inputs.ts';
import { rainMaking, rainReport } from '../rain/making.ts';
import { Refusal } from '../read/outcome.ts';
import { createSession } from '../session.ts';
import type { Analyst, ExportFormat, FileReport, Inputs, ReadReport } from '../session-types.ts';
import { tiers } from '../session-types.ts';
import { defaultSettings, type Settings, type SettingsChanges, withSettings } from '../settings.ts';
import { type UnitSystem, unitSystems } from '../units.ts';
import { readWeather } from '../weather/read.ts';
import { drivingRain } from '../weather/record.ts';
import { roseCsv, totalLines } from '../weather/table.ts';
import { fileSource, readAssets, writeWhole } from './files.ts';
import { rainLines } from './rain-table.ts';
import { treeText } from './tree.ts';

/** Wrong use of the command line: exit code 2. */
export class UsageError extends Error {}

export type Flags = Readonly<Record<string, string | undefined>>;

/** What a command prints; it writes files by itself, whole or not at all. */
export interface Command {
  readonly summary: string;
  /** Flags with what stands behind them; those marked true are needed. */
  readonly flags: Readonly<
    Record<string, { readonly value: string; readonly help: string; readonly needed?: true }>
  >;
  readonly run: (flags: Flags, print: (line: string) => void) => Promise<void>;
}

const inputFlags = {
  buildings: { value: 'F.csv', help: 'building list', needed: true },
  walls: { value: 'F.csv', help: 'cladding records; without them every wall is unknown' },
  rain: { value: 'F.csv', help: 'your own rain grid: longitude, latitude, rain with its unit' },
  stations: {
    value: 'F.csv',
    help: 'rain stations that adjust the grid: latitude, longitude, normal',
  },
  weather: {
    value: 'F.csv',
    help: 'hourly weather record: its wind during rain for the whole portfolio',
  },
} as const;
const runFlags = {
  settings: { value: 'F.json', help: 'settings to change, or the .about.json of an earlier run' },
  'as-of': {
    value: 'YEAR',
    help: `year in which the portfolio is looked at (${defaultSettings.constants.as_of})`,
  },
} as const;

export const commands: Readonly<Record<string, Command>> = {
  demo: {
    summary: 'write the invented example portfolio',
    flags: {
      out: { value: 'DIR', help: 'folder for buildings.csv and walls.csv', needed: true },
      buildings: { value: 'N', help: 'number of buildings (400)' },
      seed: { value: 'S', help: 'seed of the generator (2026)' },
    },
    run: async (flags, print) => {
      const options = {
        buildings: whole(flags, 'buildings', 400),
        seed: whole(flags, 'seed', 2026),
      };
      const { buildingsCsv, wallsCsv, about } = generateDemo(options);
      const folder = flags.out!;
      writeWhole({
        [join(folder, 'buildings.csv')]: buildingsCsv,
        [join(folder, 'walls.csv')]: wallsCsv,
        [join(folder, 'about.txt')]: `${about}\n`,
      });
      print(about);
      print(`Wrote buildings.csv and walls.csv to ${folder}.`);
    },
  },
  check: {
    summary: 'read the files and say what was accepted and set aside; writes nothing',
    flags: { ...inputFlags, 'as-of': runFlags['as-of'] },
    run: async (flags, print) => {
      const portfolio = await readInputs(
        inputs(flags),
        readAssets(),
        settingsOf(flags).constants.as_of!,
      );
      printReport(portfolio.report, print, 20);
      const making = rainMaking(portfolio, settingsOf(flags).constants);
      for (const line of rainLines(rainReport(making))) print(line);
    },
  },
  rank: {
    summary: 'rank the buildings and write the ranking',
    flags: {
      ...inputFlags,
      ...runFlags,
      units: { value: 'metric|american', help: 'units of the file (metric)' },
      out: {
        value: 'F.csv|json|geojson',
        help: 'file to write; its ending is its format',
        needed: true,
      },
    },
    run: rank,
  },
  weather: {
    summary: 'turn an hourly weather record into its driving rain by direction',
    flags: {
      record: {
        value: 'F.csv',
        help: 'hourly record: time, rain, wind speed, wind direction',
        needed: true,
      },
      out: {
        value: 'F.csv',
        help: 'file to write: azimuth_deg, airfield_index_mm, kappa',
        needed: true,
      },
    },
    run: async (flags, print) => {
      const record = await readWeather(fileSource(flags.record!));
      const found = drivingRain(record);
      writeWhole({ [flags.out!]: roseCsv(found.rose) });
      for (const line of totalLines(record, found)) print(line);
      print(`Wrote ${flags.out}.`);
    },
  },
  explain: {
    summary: 'print the derivation of one figure of one building',
    flags: {
      ...inputFlags,
      ...runFlags,
      building: { value: 'ID', help: 'building_id', needed: true },
      column: { value: 'NAME', help: 'output column (index)' },
      out: { value: 'F.json', help: 'also write the derivation as JSON' },
    },
    run: explain,
  },
};

async function rank(flags: Flags, print: (line: string) => void): Promise<void> {
  const out = flags.out!;
  const format = formatOf(out);
  const units = unitsOf(flags);
  await withSession(flags, async (session, report) => {
    const { text, about } = await session.write(format, units);
    const remarks = report.files.flatMap(({ setAside, noted }) => [...setAside, ...noted]);
    const aside = remarks.length > 0 ? { [`${out}.set-aside.csv`]: setAsideText(report) } : {};
    writeWhole({ [out]: text, [`${out}.about.json`]: about, ...aside });
    printReport(report, print, 3);
    const { counts } = await session.frame();
    print(tiers.map((tier) => `${tier} ${counts.tier[tier]}`).join(' · '));
    print(
      `Wrote ${out} and ${out}.about.json${remarks.length > 0 ? ` and ${out}.set-aside.csv` : ''}.`,
    );
    print(
      'Screening, not diagnosis: a low place is not a clearance. Local codes and a licensed professional decide.',
    );
  });
}

async function explain(flags: Flags, print: (line: string) => void): Promise<void> {
  await withSession(flags, async (session) => {
    const found = await session.order({ by: 'index', search: flags.building! });
    const rows = await session.rows(found);
    const row = rows.find(({ building_id }) => building_id === flags.building);
    if (!row)
      throw new Refusal(
        '',
        `There is no building ${flags.building} among those accepted. Check the id.`,
      );
    const node = await session.ledger(row.b as number, flags.column ?? 'index').catch((cause) => {
      if (!`${cause}`.includes('no derivation')) throw cause;
      throw new UsageError(`There is no column "${flags.column}" to explain.`);
    });
    if (flags.out) writeWhole({ [flags.out]: `${JSON.stringify(node, null, 1)}\n` });
    print(`${row.building_id}${row.name ? `, ${row.name}` : ''}`);
    print(treeText(node));
    print('Screening, not diagnosis: a low place is not a clearance.');
  });
}

async function withSession(
  flags: Flags,
  work: (session: Analyst, report: ReadReport) => Promise<void>,
): Promise<void> {
  const settings = settingsOf(flags);
  const files = inputs(flags);
  const engine = await openNative();
  try {
    const session = await createSession(engine, readAssets(), settings);
    await work(session, await session.open(files));
  } finally {
    await engine.close();
  }
}

function inputs(flags: Flags): Inputs {
  return {
    buildings: fileSource(flags.buildings!),
    ...(flags.walls ? { walls: fileSource(flags.walls) } : {}),
    ...(flags.rain ? { rain: fileSource(flags.rain) } : {}),
    ...(flags.stations ? { stations: fileSource(flags.stations) } : {}),
    ...(flags.weather ? { weather: fileSource(flags.weather) } : {}),
  };
}

function settingsOf(flags: Flags): Settings {
  const changes = flags.settings ? settingsFile(flags.settings) : {};
  if (flags['as-of'] === undefined) return withSettings(changes);
  const constants = { ...changes.constants, as_of: whole(flags, 'as-of', 0) };
  return withSettings({ ...changes, constants });
}

/** A settings file, or the sidecar of an earlier run, whose settings stand under that name. */
function settingsFile(path: string): SettingsChanges {
  const parsed = jsonObject(path);
  return 'software' in parsed ? (parsed.settings as SettingsChanges) : parsed;
}

function jsonObject(path: string): Record<string, unknown> {
  try {
    const parsed: unknown = JSON.parse(readFileSync(path, 'utf8'));
    if (parsed && typeof parsed === 'object' && !Array.isArray(parsed)) {
      return parsed as Record<string, unknown>;
    }
  } catch (cause) {
    const why = cause instanceof Error ? cause.message : cause;
    throw new Refusal(path, `${path} is not a settings file: ${why}.`);
  }
  throw new Refusal(path, `${path} is not a settings file: a JSON object is needed.`);
}

function whole(flags: Flags, name: string, otherwise: number): number {
  const text = flags[name];
  if (text === undefined) return otherwise;
  if (!/^\d+$/.test(text)) throw new UsageError(`--${name} needs a whole number, not "${text}".`);
  return Number(text);
}

function formatOf(out: string): ExportFormat {
  const ending = extname(out).slice(1).toLowerCase();
  if (ending === 'csv' || ending === 'json' || ending === 'geojson') return ending;
  throw new UsageError(`--out ${out}: the file must end in .csv, .json or .geojson.`);
}

function unitsOf(flags: Flags): UnitSystem {
  const wanted = flags.units ?? 'metric';
  const units = unitSystems.find((system) => system === wanted);
  if (!units) throw new UsageError(`--units is metric or american, not "${wanted}".`);
  return units;
}

function printReport({ files }: ReadReport, print: (line: string) => void, most: number): void {
  for (const file of files) {
    print(balance(file));
    const remarks = [...file.setAside, ...file.noted];
    for (const { message } of remarks.slice(0, most)) print(`  ${message}`);
    if (remarks.length > most) print(`  … and ${remarks.length - most} more.`);
  }
}

const balance = ({ file, rowsRead, accepted, setAside, noted }: FileReport): string =>
  `${file}: ${rowsRead} rows read = ${accepted} accepted + ${setAside.length} set aside; ${noted.length} cells noted.`;
