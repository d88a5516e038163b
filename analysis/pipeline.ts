import type { Constants } from './constants.ts';
import type { Engine } from './engine/port.ts';
import alike from './index/alike.sql?raw';
import alikeIndex from './index/alike_index.sql?raw';
import buildingIndex from './index/building_index.sql?raw';
import { factShareReads, factShares } from './index/fact-share.ts';
import { meansAlone, spread, spreadReads } from './index/spread.ts';
import wallCase from './index/wall_case.sql?raw';
import wallIndex from './index/wall_index.sql?raw';
import needCase from './need/case.sql?raw';
import editionAnswer from './need/edition_answer.sql?raw';
import editionPossible from './need/edition_possible.sql?raw';
import needFact from './need/fact.sql?raw';
import need from './need/need.sql?raw';
import needNow from './need/now.sql?raw';
import ruleAnswer from './need/rule_answer.sql?raw';
import needThen from './need/then.sql?raw';
import needToday from './need/today.sql?raw';
import needWall from './need/wall.sql?raw';
import site from './place/site.sql?raw';
import siteClass from './place/site_class.sql?raw';
import standing from './place/standing.sql?raw';
import superseded from './place/superseded.sql?raw';
import wall from './place/wall.sql?raw';
import wallRow from './place/wall_row.sql?raw';
import word from './place/word.sql?raw';
import rankOf from './rank/rank_of.sql?raw';
import ranking from './rank/ranking.sql?raw';
import tier from './rank/tier.sql?raw';
import tiered from './rank/tiered.sql?raw';
import { referenceColumns, referenceTables } from './reference.ts';
import type { Watching } from './session-types.ts';
import { priorIn, type Settings } from './settings.ts';
import assembly from './state/assembly.sql?raw';
import assemblyCase from './state/case.sql?raw';
import assemblyDraw from './state/draw.sql?raw';
import drainageState from './state/state.sql?raw';
import assemblyValue from './state/value.sql?raw';
import loadCase from './wetting/load_case.sql?raw';
import loadDraw from './wetting/load_draw.sql?raw';
import wallLoad from './wetting/wall_load.sql?raw';
import wetting from './wetting/wetting.sql?raw';
import { loadWind, noRecord, type WindInRain, windTables } from './wetting/wind.ts';

/** A step of the method: a fixed statement, or a kernel that reads and writes tables of the engine. */
type Step =
  | {
      readonly name: string;
      readonly sql: string;
      /** The table that it drops; it makes none. */
      readonly drops?: string;
    }
  | {
      readonly name: string;
      readonly kernel: (engine: Engine, constants: Constants) => Promise<void>;
      /** Tables and constants. */
      readonly reads: readonly string[];
    };

/** A table as long as the walls that is asked for no more: its memory is more than a browser has to spare. */
const done = (table: string): Step => ({
  name: `${table}, done`,
  sql: `DROP TABLE ${table}`,
  drops: table,
});

/**
 * The method, in the order in which it runs and reads. It starts from the tables `building` (with its rain) and
 * `wall_record`, and the tables of data/; each step makes the table or macro it is named for.
 */
export const steps: readonly Step[] = [
  { name: 'site_class', sql: siteClass },
  { name: 'site', sql: site },
  { name: 'superseded', sql: superseded },
  { name: 'standing', sql: standing },
  { name: 'wall_row', sql: wallRow },
  { name: 'wall', sql: wall },
  { name: 'load_case', sql: loadCase },
  { name: 'load_draw', sql: loadDraw },
  { name: 'need_fact', sql: needFact },
  { name: 'need_case', sql: needCase },
  { name: 'need_wall', sql: needWall },
  done('need_fact'),
  { name: 'rule_answer', sql: ruleAnswer },
  { name: 'edition_possible', sql: editionPossible },
  { name: 'edition_answer', sql: editionAnswer },
  { name: 'need_now', sql: needNow },
  { name: 'need_then', sql: needThen },
  { name: 'need_today', sql: needToday },
  { name: 'need', sql: need },
  { name: 'assembly_case', sql: assemblyCase },
  { name: 'assembly_draw', sql: assemblyDraw },
  { name: 'assembly', sql: assembly },
  { name: 'assembly_value', sql: assemblyValue },
  { name: 'drainage_state', sql: drainageState },
  { name: 'wall_case', sql: wallCase },
  { name: 'wall_load', sql: wallLoad },
  { name: 'alike', sql: alike },
  { name: 'spread', kernel: spread, reads: spreadReads },
  { name: 'wetting', sql: wetting },
  { name: 'alike_index', sql: alikeIndex },
  done('alike'),
  done('spread'),
  { name: 'wall_index', sql: wallIndex },
  { name: 'building_index', sql: buildingIndex },
  { name: 'fact_share', kernel: factShares, reads: factShareReads },
  { name: 'tier_of', sql: tier },
  { name: 'tiered', sql: tiered },
  { name: 'rank_of', sql: rankOf },
  { name: 'ranking', sql: ranking },
];

/** Loads the tables of data/ and the list of words in them; `k` will be a single row with a column for each constant. */
export async function loadReference(engine: Engine): Promise<void> {
  for (const { id, rows } of referenceTables) await engine.load(id, referenceColumns(rows));
  await engine.query(word);
}

/** The step of the spread without low and high: of those there is then no record. */
export const noIntervals: Step = { name: 'spread', kernel: meansAlone, reads: spreadReads };

const priorIds = referenceTables
  .filter(({ file }) => file.startsWith('priors/'))
  .map(({ id }) => id);

/** Runs the whole method over the loaded inputs. */
export async function score(
  engine: Engine,
  settings: Settings,
  wind: WindInRain = noRecord(settings.constants),
  run: readonly Step[] = steps,
  watching: Watching = {},
): Promise<void> {
  await loadSettings(engine, settings, [...priorIds, 'edition_in_force']);
  await loadWind(engine, wind, settings);
  await runSteps(engine, settings, run, watching);
}

/** Runs some of the steps over tables that stand. */
export async function runSteps(
  engine: Engine,
  { constants }: Settings,
  run: readonly Step[],
  { signal, onProgress }: Watching = {},
): Promise<void> {
  for (const [i, step] of run.entries()) {
    signal?.throwIfAborted();
    onProgress?.({ what: 'Scoring', share: i / run.length });
    if ('sql' in step) await engine.query(step.sql);
    else await step.kernel(engine, constants);
  }
}

/**
 * Loads what has changed (names of `namesChanged`, and tables that are loaded anew besides) since the settings that stand in
 * the engine, and answers the steps that have to run again.
 */
export async function loadChanges(
  engine: Engine,
  settings: Settings,
  wind: WindInRain,
  changed: readonly string[],
): Promise<readonly Step[]> {
  await loadSettings(engine, settings, changed);
  const blown = windTables(wind, changed);
  if (blown.length > 0) await loadWind(engine, wind, settings);
  return stepsAfter([...changed, ...blown]);
}

/** Makes the row `k` of all constants, and those of the tables named that settings can change. */
async function loadSettings(
  engine: Engine,
  settings: Settings,
  changed: readonly string[],
): Promise<void> {
  const { constants, editions } = settings;
  const k = Object.entries(constants).map(
    ([name, value]) => [name, Float64Array.of(value)] as const,
  );
  await engine.load('k', { n: 1, cols: Object.fromEntries(k) });
  for (const id of priorIds.filter((prior) => changed.includes(prior))) {
    await engine.load(id, referenceColumns(priorIn(settings, id)));
  }
  if (!changed.includes('edition_in_force')) return;
  await engine.load('edition_in_force', {
    n: editions.length,
    cols: {
      region: editions.map(({ region }) => region),
      code: editions.map(({ code }) => code),
      edition: Float64Array.from(editions, ({ edition }) => edition),
      from_year: Float64Array.from(editions, ({ from_year }) => from_year),
    },
  });
}

/**
 * Words of a step, but for comments and texts: a name among them may be a table or a constant that it reads. One that is not
 * costs a run for nothing.
 */
const wordsOf = (step: Step): ReadonlySet<string> =>
  new Set('sql' in step ? step.sql.replaceAll(/--.*|'[^']*'/g, ' ').match(/\w+/g) : step.reads);

/**
 * The steps that have to run again, in order, once what these names stand for has changed: those that read one of them or
 * a table that is made anew for it, and those that make what was dropped and is read by them.
 */
export function stepsAfter(changed: readonly string[]): readonly Step[] {
  const makers = steps.filter((step) => !('drops' in step));
  const dropped = new Set(steps.flatMap((step) => ('drops' in step ? [step.drops!] : [])));
  const words = new Map(makers.map((step) => [step.name, wordsOf(step)]));
  const anew = new Set(changed);
  const run = new Set<string>();
  const reads = (name: string, among: ReadonlySet<string>) =>
    [...words.get(name)!].some((word) => among.has(word));
  for (const { name } of makers) {
    if (!reads(name, anew)) continue;
    run.add(name);
    anew.add(name);
  }
  for (const { name } of makers.toReversed()) {
    if (dropped.has(name) && [...run].some((reader) => words.get(reader)!.has(name))) run.add(name);
  }
  return steps.filter((step) => run.has('drops' in step ? step.drops! : step.name));
}
