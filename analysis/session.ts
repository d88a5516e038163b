import type { Engine } from './engine/port.ts';
import { loadRecord } from './engine/record.ts';
import { createTurns } from './engine/turns.ts';
import { type WholeTables, wholeTables } from './engine/whole.ts';
import {
  type Assets,
  filesOf,
  inOrderOf,
  type Portfolio,
  readInputs,
  wallRecord,
} from './inputs.ts';
import type { LiveRanking } from './live/live.ts';
import { loadChanges, loadReference, runSteps, score, steps } from './pipeline.ts';
import { asLonLat } from './rain/as-lon-lat.ts';
import { type RainAtBuildings, rainAtBuildings } from './rain/at-buildings.ts';
import { type MadeRain, rainMaking, rainReads, rainReport } from './rain/making.ts';
import { wallAreas } from './rank/areas.ts';
import { chase } from './rank/chase.ts';
import { effectOf, placesNow } from './rank/effect.ts';
import { frame } from './rank/frame.ts';
import { type RankingRows, rankingRows, rowsRead } from './rank/rows.ts';
import type { Analyst, Inputs, Watching } from './session-types.ts';
import {
  changesOf,
  defaultSettings,
  namesChanged,
  type Settings,
  withSettings,
} from './settings.ts';
import { facet } from './sift/facet.ts';
import { once } from './sift/kept.ts';
import { type Sifted, siftedColumns } from './sift/sifted.ts';
import type { FindingsRead, FindingsView } from './survey/findings.ts';
import { noRecord, ofRecord } from './wetting/wind.ts';

/** Nodes of a projected grid drawn anew in degrees for the map: more than a screen can show. */
const sheetNodes = 250_000;

/** What a first ranking does without: fetched when it is first asked for, so that the page starts with less. */
const parts = {
  building: () => import('./building.ts'),
  corrections: () => import('./corrections.ts'),
  exposure: () => Promise.all([import('./exposure/exposure.ts'), import('./exposure/columns.ts')]),
  digest: () => import('./read/digest.ts'),
  write: () => Promise.all([import('./export/write.ts'), import('./export/about.ts')]),
  findings: () => import('./survey/findings.ts'),
  infer: () => import('./findings/infer.ts'),
  learn: () => import('./survey/learn.ts'),
  ledger: () => import('./ledger/ledger.ts'),
  live: () => import('./live/live.ts'),
  plans: () => import('./survey/draw.ts'),
  preview: () => import('./preview.ts'),
  remarks: () => import('./remarks.ts'),
};

const noneRead: FindingsView = { reports: [], remarks: [], rows: [], says: [] };

/** A portfolio that has been read and scored, and what it was scored with. */
interface Scored {
  readonly portfolio: Portfolio;
  readonly settings: Settings;
  readonly making: MadeRain;
  readonly rain: RainAtBuildings;
  readonly rows: RankingRows;
  readonly sifted: Sifted;
  /** The same made ready for other weights. */
  readonly live: () => Promise<LiveRanking>;
}

/**
 * The analysis over one engine: what the page's worker and the command line both drive. Files are read while the engine
 * still gets its tables of data/.
 */
export function createSession(
  engine: Engine,
  assets: Assets,
  settings: Settings = defaultSettings,
): Analyst {
  const whole = wholeTables(engine);
  const { tables, undisturbed, shown } = whole;
  const reference = undisturbed(loadReference);
  // Told where it is waited for.
  reference.catch(() => {});
  let current: Scored | undefined;
  /** Whether the tables in the engine are those of `current`, all of them: not after a scoring that broke off. */
  let standing = false;
  const adopt: Adopt = (made) => {
    current = made;
    standing = true;
  };
  const inTurn = createTurns();
  /** Each scoring starts from what the last one left; `stood` says whether that is whole. */
  const scoring = <T>(make: (stood: boolean) => Promise<T>): Promise<T> =>
    inTurn(() => {
      const stood = standing;
      standing = false;
      return make(stood);
    });
  let wanted = settings;
  let findings: FindingsRead | null = null;
  const onRecord = async () => (findings ?? (await parts.findings()).noFindings).table;
  const opened = (): Scored => {
    if (!current) throw new Error('no portfolio is open');
    return current;
  };
  /** The last scoring under weights that are being tried, which do not outlive it. */
  let leaning: { readonly of: Scored; readonly sifted: Sifted } | undefined;
  const inUse = (): Sifted => (leaning?.of === opened() ? leaning.sifted : opened().sifted);
  return {
    open: async (inputs: Inputs, watching: Watching = {}) => {
      if (inputs.settings) wanted = withSettings(inputs.settings);
      const portfolio = await readInputs(inputs, assets, wanted.constants.as_of!, watching);
      const rained = rainOn(portfolio, wanted);
      await reference;
      await scoring(() => openedOver(whole, current, portfolio, wanted, rained, adopt, watching));
      findings = null;
      return portfolio.report;
    },
    preview: async (source, table, reading, maps) => {
      const { previewSheet } = await parts.preview();
      return previewSheet(source, table, reading, maps, assets, wanted.constants.as_of!);
    },
    remarks: async (query) =>
      (await parts.remarks()).remarksMatching(opened().portfolio.remarks, query),
    mends: async () => (await parts.corrections()).offeredMends(opened().portfolio.remarks),
    record: async (file, table, row, wall) =>
      (await parts.remarks()).recordView(opened().portfolio, file, table, row, wall),
    remarksText: async () => (await parts.corrections()).remarksCsv(opened().portfolio.remarks),
    rescore: async (changes) => {
      const settings = withSettings(changes);
      wanted = settings;
      return scoring(async (stood) => {
        const before = stood ? await placesNow(tables) : null;
        await (stood ? rescored : scoredAnew)(whole, opened(), settings, adopt);
        const after = await placesNow(tables);
        return effectOf(before ?? after, after);
      });
    },
    settings: async () => changesOf(wanted),
    frame: async () => frame(opened().sifted.held),
    lean: async (weights) => {
      const now = opened();
      if (!weights) {
        leaning = undefined;
        return null;
      }
      const { rerank } = await parts.live();
      const { sifted, answer } = now.sifted.under(rerank(await now.live(), weights));
      leaning = { of: now, sifted };
      return answer;
    },
    prepareLean: async () => {
      await opened().live();
    },
    order: async (query) => inUse().order(query),
    atRank: async (rank) => {
      const b = (await inUse().held.number('rank')).indexOf(rank);
      return b < 0 ? null : b;
    },
    facet: async (column) => facet(inUse().held, column),
    views: async (query) => inUse().views(query),
    exposure: async (query, request) => {
      const { held, order } = opened().sifted;
      const [{ exposureOf }, { exposureColumns }] = await parts.exposure();
      return exposureOf(await exposureColumns(held), await order(query), request);
    },
    rows: (ordinals) => shown((engine) => opened().rows(engine, ordinals)),
    own: async (ordinals) => inOrderOf(opened().portfolio.extra, ordinals),
    building: async (b) => {
      const { buildingDetail } = await parts.building();
      return undisturbed(async (engine) => {
        const { portfolio, rows } = opened();
        const [row] = await rows(engine, Int32Array.of(b));
        return buildingDetail(engine, portfolio, row!);
      });
    },
    ledger: async (b, column, wall) => {
      const { ledgerOf } = await parts.ledger();
      return undisturbed((engine) =>
        ledgerOf(
          { ...opened(), engine, settings: opened().settings.constants },
          { b, column, wall },
        ),
      );
    },
    chase: () => chase(tables, opened().settings.constants),
    wallAreas: () => wallAreas(tables),
    rainReport: async () => rainReport(opened().making),
    weather: async () => opened().portfolio.weather,
    write: async (format, units) => {
      const [{ rankingBytes }, { about }] = await parts.write();
      const ranking = await tables.query(
        'SELECT * FROM ranking ORDER BY rank NULLS LAST, building_id',
      );
      const { portfolio } = opened();
      const told = await about(opened());
      return {
        bytes: await rankingBytes(ranking, portfolio.extra, format, units, told),
        about: told,
      };
    },
    strata: async (asked, fields) =>
      (await parts.plans()).strataOf(tables, opened().sifted, asked, fields),
    draw: async (asked, request, head) => {
      const { digestOf } = await parts.digest();
      const files = filesOf(opened().portfolio.inputs);
      const digests = await Promise.all(
        files.map(async (file) => [file.name, await digestOf(file)]),
      );
      const { drawPlan } = await parts.plans();
      return drawPlan(tables, opened().sifted, asked, request, {
        ...head,
        inputs: Object.fromEntries(digests),
      });
    },
    readFindings: async (sources) => {
      if (sources.length === 0) {
        findings = null;
        return noneRead;
      }
      const { findingsView, readAllFindings } = await parts.findings();
      findings = await readAllFindings(tables, sources, opened().settings.constants.as_of!);
      return findingsView(findings);
    },
    infer: async (plan, options) => {
      const [{ infer }, { outlineFrom }] = await Promise.all([parts.infer(), parts.learn()]);
      return infer(outlineFrom(plan), await onRecord(), options);
    },
    learn: async (plans) => {
      const { learnFrom } = await parts.learn();
      return learnFrom(tables, plans, await onRecord(), opened().settings.constants);
    },
    rainSheet: async () => asLonLat(opened().portfolio.grid, sheetNodes),
  };
}

/** Takes what was scored as what is open: while its tables are still held, so that nobody reads them as an older one's. */
type Adopt = (scored: Scored) => void;

/** Loads and scores a portfolio; where that is stopped or breaks, what was open before is put back. */
async function openedOver(
  whole: WholeTables,
  before: Scored | undefined,
  portfolio: Portfolio,
  settings: Settings,
  rained: Rained,
  adopt: Adopt,
  watching: Watching,
): Promise<void> {
  const walls = ({ portfolio }: Pick<Scored, 'portfolio'>) =>
    whole.undisturbed((into) => loadRecord(into, 'wall_record', wallRecord(portfolio)));
  try {
    await walls({ portfolio });
    await scored(whole, portfolio, settings, rained, adopt, watching);
  } catch (cause) {
    if (before) {
      await walls(before);
      await scored(whole, before.portfolio, before.settings, before, adopt);
    }
    throw cause;
  }
}

type Rained = Pick<Scored, 'making' | 'rain'>;

/** The rain in use, and what falls at each building: needs no engine. */
function rainOn(portfolio: Portfolio, { constants }: Settings): Rained {
  const making = rainMaking(portfolio, constants);
  return { making, rain: rainAtBuildings(portfolio.buildings, making, constants) };
}

const scored = (
  { tables, undisturbed }: WholeTables,
  portfolio: Portfolio,
  settings: Settings,
  rained: Rained,
  adopt: Adopt,
  watching: Watching = {},
): Promise<void> =>
  undisturbed((engine, apart) =>
    apart(async () => {
      await loadRain(engine, portfolio, rained);
      await score(engine, settings, windOn(portfolio, settings), steps, watching);
      adopt(ready(tables, portfolio, settings, rained));
    }),
  );

const scoredAnew = (whole: WholeTables, { portfolio }: Scored, settings: Settings, adopt: Adopt) =>
  scored(whole, portfolio, settings, rainOn(portfolio, settings), adopt);

/**
 * The same portfolio under other settings, over tables that stand: only what reads something that has changed is done
 * again, and rows can be read until the tables they come from are remade.
 */
async function rescored(
  { tables, undisturbed }: WholeTables,
  before: Scored,
  settings: Settings,
  adopt: Adopt,
): Promise<void> {
  const { portfolio } = before;
  const changed = namesChanged(before.settings, settings);
  const otherRain = changed.some((name) => rainReads.includes(name));
  const rained = otherRain ? rainOn(portfolio, settings) : before;
  const wind = windOn(portfolio, settings);
  await undisturbed(async (engine, apart) => {
    const run = await loadChanges(engine, settings, wind, [
      ...changed,
      ...(otherRain ? ['building', 'rain_said'] : []),
    ]);
    const ofRows = run.findIndex(({ name }) => rowsRead.has(name));
    const from = otherRain ? 0 : ofRows < 0 ? run.length : ofRows;
    await runSteps(engine, settings, run.slice(0, from));
    await apart(async () => {
      if (otherRain) await loadRain(engine, portfolio, rained);
      await runSteps(engine, settings, run.slice(from));
      adopt(ready(tables, portfolio, settings, rained));
    });
  });
}

const windOn = ({ weather }: Portfolio, { constants }: Settings) =>
  weather ? ofRecord(weather) : noRecord(constants);

async function loadRain(engine: Engine, { buildings }: Portfolio, { rain }: Rained): Promise<void> {
  await engine.load('rain_said', rain.said);
  const cols = { ...buildings.cols, ...rain.columns };
  await loadRecord(engine, 'building', { n: buildings.n, cols });
}

/** A portfolio whose tables stand, with what is fetched of them when it is asked for. */
function ready(
  tables: Engine,
  portfolio: Portfolio,
  settings: Settings,
  { making, rain }: Rained,
): Scored {
  const { n } = portfolio.buildings;
  const live = once(async () => (await parts.live()).prepareLive(tables, settings.constants));
  const sifted = siftedColumns(tables, n);
  return { portfolio, settings, making, rain, rows: rankingRows(n), sifted, live };
}
