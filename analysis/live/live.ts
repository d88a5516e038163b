import { numbers } from '../columns.ts';
import type { Constants } from '../constants.ts';
import type { Engine } from '../engine/port.ts';
import type { Weights } from '../session-types.ts';
import { type AssemblyDraws, assemblyDraws, assemblyMeans } from './assembly-means.ts';
import { loadCases } from './load-cases.ts';
import { loadProfiles } from './load-profiles.ts';
import { exactly, type LoadGround, loadRange, loadTables, tableSpan } from './load-range.ts';
import { ordered, place } from './place.ts';
import { rainNodes } from './rain-nodes.ts';
import { inParts, wallFacts } from './wall-facts.ts';

/** Where each building stood when the portfolio was last scored; by ordinal but for `order`. */
interface Standing {
  readonly leak: Uint8Array;
  /** Ordinals by rank; behind them, in order of their ordinal, the buildings that have none. */
  readonly order: Int32Array;
}

/** What `rerank` found for the weights it was last asked for, so that a slider that moves alone costs its part alone. */
interface LastWeights {
  weights: Weights | null;
  /** Range of w_mean of each load, millionths. */
  readonly low: Int32Array;
  readonly high: Int32Array;
  /** The greatest ds_mean among the walls of each load, millionths. */
  readonly behind: Int32Array;
  exact: (load: number, b: number) => number;
}

/** All that ranking a scored portfolio anew under other weights needs: typed arrays, by building ordinal. */
export interface LiveRanking {
  readonly n: number;
  readonly ground: LoadGround;
  readonly assemblies: AssemblyDraws;
  readonly standing: Standing;
  /** The weight α with which the portfolio was scored. */
  readonly scoredLoad: number;
  /** Least index of First look, Next look and Keep watch. */
  readonly thresholds: readonly [number, number, number];
  readonly last: LastWeights;
  /** Where the order puts each building; written anew by every `rerank`, for what is made and left a move is felt. */
  readonly key: Uint16Array;
}

/**
 * Reads what `rerank` needs from the tables that `score` made. `constants` are those of that scoring. The result belongs
 * to that scoring: after another it has to be made again.
 */
export async function prepareLive(engine: Engine, constants: Constants): Promise<LiveRanking> {
  const n = numbers(await engine.query('SELECT count(*) AS n FROM building'), 'n')[0]!;
  const ground = await loadGround(engine, n, constants);
  const loads = ground.walls.loadCase.length;
  return {
    n,
    ground,
    assemblies: await assemblyDraws(engine),
    standing: await standing(engine, n),
    scoredLoad: constants.weight_load!,
    thresholds: [constants.tier_first_look!, constants.tier_next_look!, constants.tier_keep_watch!],
    last: {
      weights: null,
      low: new Int32Array(loads),
      high: new Int32Array(loads),
      behind: new Int32Array(loads),
      exact: () => Number.NaN,
    },
    key: new Uint16Array(n),
  };
}

async function loadGround(engine: Engine, n: number, constants: Constants): Promise<LoadGround> {
  const rain = await rainNodes(engine, n, constants);
  const cases = await loadCases(engine);
  const profiles = loadProfiles(cases);
  return {
    walls: await wallFacts(engine, n),
    rain,
    cases,
    profiles,
    span: tableSpan(rain, profiles),
    halfLoad: constants.half_load_l_m2!,
  };
}

const standingText = `SELECT CAST(t.b AS DOUBLE) AS b, CAST(t.leak AS DOUBLE) AS leak, CAST(r.rank AS DOUBLE) AS rank
  FROM tiered t LEFT JOIN rank_of r USING (b) WHERE t.b >= ? AND t.b < ?`;

async function standing(engine: Engine, n: number): Promise<Standing> {
  const leak = new Uint8Array(n);
  const rank = new Int32Array(n);
  await inParts(engine, n, standingText, (rows) => {
    const [at, leaking, ranked] = ['b', 'leak', 'rank'].map((name) => numbers(rows, name));
    for (let i = 0; i < rows.n; i++) {
      leak[at![i]!] = leaking![i]!;
      // A rank of no record becomes 0.
      rank[at![i]!] = ranked![i]!;
    }
  });
  return { leak, order: byRank(rank) };
}

/** Ordinals by rank, counted from 1; rank 0 stands for none. */
function byRank(rank: Int32Array): Int32Array {
  const order = new Int32Array(rank.length);
  let next = rank.reduce((most, r) => Math.max(most, r), 0);
  for (const [b, r] of rank.entries()) order[r > 0 ? r - 1 : next++] = b;
  return order;
}

/** A portfolio ranked anew, by building ordinal; arrays of its own, free to be handed over. */
export interface Reranked {
  /** Building index in hundredths, 0-10,000; `noIndex` where it is not scored. */
  readonly cents: Int16Array;
  /** Place among the tiers: 0 First look … 4 Not scored. */
  readonly tier: Uint8Array;
  /** From 1; 0 where it has none. */
  readonly rank: Int32Array;
  /** Ordinals, ranked first, then not scored. */
  readonly order: Int32Array;
}

/**
 * Index, tier and order of every building under other weights, without the engine.
 *
 * Index and tier are those that a scoring with these weights prints. β and γ are followed exactly. Under another α
 * w_mean is read off tables together with how far they may be off; where that leaves the second decimal of an index open,
 * the loads that decide are worked out as the SQL does.
 *
 * The order is that of rank_of.sql: a reported leak first, then the index. Among equal ones it goes by the **last scored**
 * rank: index_high and index_weighted_area_m2 under these weights need a scoring.
 */
export function rerank(live: LiveRanking, weights: Weights): Reranked {
  follow(live, weights);
  const cents = new Int16Array(live.n);
  const tier = new Uint8Array(live.n);
  place(live, cents, tier);
  const rank = new Int32Array(live.n);
  return { cents, tier, rank, order: ordered(live.standing.order, live.key, rank) };
}

/** Brings what is kept of the last weights to these. */
function follow(live: LiveRanking, weights: Weights): void {
  const { last } = live;
  const before = last.weights;
  if (before?.load !== weights.load) followLoad(live, weights.load);
  if (
    before?.deficiency !== weights.deficiency ||
    before.susceptibility !== weights.susceptibility
  ) {
    greatestBehind(live, assemblyMeans(live.assemblies, weights));
  }
  last.weights = { ...weights };
}

function followLoad({ ground, scoredLoad, last }: LiveRanking, alpha: number): void {
  if (alpha === scoredLoad) {
    last.low.set(ground.walls.scored);
    last.high.set(ground.walls.scored);
  } else if (alpha === 0) {
    last.low.fill(1e6);
    last.high.fill(1e6);
  } else {
    loadRange(ground, loadTables(ground, alpha), last.low, last.high);
    last.exact = exactly(ground, alpha);
  }
}

/** For each load the greatest ds_mean of its walls: the load is theirs alike, so that wall has the greatest index. */
function greatestBehind({ ground, last }: LiveRanking, means: Int32Array): void {
  const { assemblyStart, assembly } = ground.walls;
  const { behind } = last;
  for (let p = 0, i = 0; p < behind.length; p++) {
    let most = 0;
    for (const end = assemblyStart[p + 1]!; i < end; i++) {
      // The greater of two without a branch, which would be guessed wrong at every other wall.
      const rise = means[assembly[i]!]! - most;
      most += rise & ~(rise >> 31);
    }
    behind[p] = most;
  }
}
