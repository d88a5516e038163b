import { join } from 'node:path';
import { generateDemo } from '../../data/demo/generate.ts';
import { readInputs } from '../inputs.ts';
import { mapsText } from '../mapping/maps-file.ts';
import { rainMaking, rainReport } from '../rain/making.ts';
import { Refusal } from '../read/outcome.ts';
import type { Analyst, ReadReport } from '../session-types.ts';
import { exportFormats } from '../session-types.ts';
import { readWeather } from '../weather/read.ts';
import { drivingRain } from '../weather/record.ts';
import { roseCsv, totalLines } from '../weather/table.ts';
import { batchFlag } from './batch.ts';
import { fileSource, readAssets, writeWhole } from './files.ts';
import { type Flags, one, UsageError, whole } from './flags.ts';
import { inputFlags, inputsOf, runFlags, settingsOf } from './inputs.ts';
import { overSession } from './over-session.ts';
import { rainLines } from './rain-table.ts';
import { rank } from './rank.ts';
import { printReport } from './report.ts';
import { drawSample, inferFlags, inferFrom, sampleFlags } from './survey.ts';
import { treeText } from './tree.ts';

/** What a command prints; it writes files by itself, whole or not at all. */
export interface Command {
  readonly summary: string;
  /** Flags with what stands behind them; those marked true are needed. */
  readonly flags: Readonly<
    Record<
      string,
      {
        readonly value: string;
        readonly help: string;
        readonly needed?: true;
        /** May be given more than once. */
        readonly many?: true;
      }
    >
  >;
  readonly run: (flags: Flags, print: (line: string) => void) => Promise<void>;
}

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
      const folder = one(flags, 'out')!;
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
    summary: 'read the files and say what was accepted and set aside; writes no ranking',
    flags: {
      ...inputFlags,
      'as-of': runFlags['as-of'],
      'write-map': {
        value: 'F.json',
        help: 'write the column maps in use, to change and give back',
      },
    },
    run: check,
  },
  rank: {
    summary: 'rank the buildings and write the ranking',
    flags: {
      ...inputFlags,
      ...runFlags,
      units: { value: 'metric|american', help: 'units of the file (metric)' },
      out: {
        value: `F.${exportFormats.join('|')}`,
        help: 'file to write; its ending is its format',
        needed: true,
      },
      ...batchFlag,
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
      const record = await readWeather(fileSource(one(flags, 'record')!));
      const found = drivingRain(record);
      writeWhole({ [one(flags, 'out')!]: roseCsv(found.rose) });
      for (const line of totalLines(record, found)) print(line);
      print(`Wrote ${flags.out}.`);
    },
  },
  sample: {
    summary: 'draw a sample of walls or buildings to open, and lock its plan',
    flags: { ...inputFlags, ...runFlags, ...sampleFlags },
    run: (flags, print) => withSession(flags, (session) => drawSample(flags, session, print)),
  },
  infer: {
    summary: 'say what findings at a sample tell of its population',
    flags: inferFlags,
    run: inferFrom,
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

async function check(flags: Flags, print: (line: string) => void): Promise<void> {
  const { constants } = settingsOf(flags);
  const portfolio = await readInputs(await inputsOf(flags), readAssets(), constants.as_of!);
  printReport(portfolio.report, portfolio.remarks, print, 20);
  const making = rainMaking(portfolio, constants);
  for (const line of rainLines(rainReport(making))) print(line);
  const path = one(flags, 'write-map');
  if (path === undefined) return;
  const maps = portfolio.report.files.flatMap(({ map }) => map ?? []);
  writeWhole({ [path]: mapsText(maps) });
  print(`Wrote ${path}.`);
}

async function explain(flags: Flags, print: (line: string) => void): Promise<void> {
  await withSession(flags, async (session) => {
    const found = await session.order({ by: 'index', search: one(flags, 'building')! });
    const rows = await session.rows(found);
    const row = rows.find(({ building_id }) => building_id === one(flags, 'building'));
    if (!row)
      throw new Refusal(
        '',
        `There is no building ${one(flags, 'building')} among those accepted. Check the id.`,
      );
    const node = await session
      .ledger(row.b as number, one(flags, 'column') ?? 'index')
      .catch((cause) => {
        if (!`${cause}`.includes('no derivation')) throw cause;
        throw new UsageError(`There is no column "${one(flags, 'column')}" to explain.`);
      });
    const out = one(flags, 'out');
    if (out) writeWhole({ [out]: `${JSON.stringify(node, null, 1)}\n` });
    print(`${row.building_id}${row.name ? `, ${row.name}` : ''}`);
    print(treeText(node));
    print('Screening, not diagnosis: a low place is not a clearance.');
  });
}

const withSession = async (
  flags: Flags,
  work: (session: Analyst, report: ReadReport) => Promise<void>,
): Promise<void> => overSession(settingsOf(flags), await inputsOf(flags), work);
