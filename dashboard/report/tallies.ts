import { indexOf } from '../../analysis/rank/cents.ts';
import {
  type Analyst,
  type Condition,
  type Counted,
  type Frame,
  type Tier,
  tiers,
} from '../../analysis/session-types.ts';

/** Counts by tier, in the order of `tiers`. */
export type ByTier = readonly number[];

/** One bar or row: its word (null: no record, or the rest), and its buildings by tier. */
interface TierGroup {
  readonly label: string;
  readonly counts: ByTier;
}

/** Counts over the buildings shown. */
export interface Tallies {
  readonly n: number;
  readonly tier: ByTier;
  /** The same with every prior leaning low, and leaning high. */
  readonly low: ByTier;
  readonly high: ByTier;
  /** Buildings by tier in each bin of the index; those without an index are in none. */
  readonly bins: readonly ByTier[];
  /** Buildings under the name of a region; the rest together last. */
  readonly regions: readonly TierGroup[];
  readonly eras: readonly string[];
  /** By material, then by era: all buildings and those to look at first. */
  readonly materials: readonly {
    readonly label: string;
    readonly cells: readonly { readonly all: number; readonly first: number }[];
  }[];
}

/** Width of a bin of the index. */
export const binWidth = 4;
const bins = 100 / binWidth;
const mostRegions = 12;
const mostMaterials = 8;

interface Class {
  readonly label: string;
  readonly condition: Condition;
}

/** Decades in which claddings were put up; the method's priors turn at some of the same years. */
const eras: readonly Class[] = [
  { label: 'before 1970', condition: { below: 1970 } },
  ...[1970, 1980, 1990, 2000, 2010, 2020].map((year) => ({
    label: `${year}s`,
    condition: { from: year, below: year + 10 },
  })),
];

const wordClasses = (found: readonly Counted[], most: number): readonly Class[] =>
  found
    .filter(({ value }) => value !== null)
    .slice(0, most)
    .map(({ value }) => ({ label: String(value), condition: { among: [value] } }));

const tierClasses: readonly Class[] = tiers.map((tier: Tier) => ({
  label: tier,
  condition: { among: [tier] },
}));

/** The class of every building, its place in the list; `classes.length` for none. One question a class. */
async function classed(
  { order }: Pick<Analyst, 'order'>,
  n: number,
  column: string,
  classes: readonly Class[],
): Promise<Uint8Array> {
  const of = new Uint8Array(n).fill(classes.length);
  // In turn: each answer may be as long as the portfolio.
  for (const [i, { condition }] of classes.entries()) {
    for (const b of await order({ by: 'index', on: { [column]: condition } })) of[b] = i;
  }
  return of;
}

/** Counts of two classes at once over the buildings shown: `counts[first][second]`. */
function crossed(
  shown: Int32Array,
  first: (b: number) => number,
  second: (b: number) => number,
  sizes: readonly [first: number, second: number],
): number[][] {
  const counts = Array.from({ length: sizes[0] }, () => new Array<number>(sizes[1]).fill(0));
  for (const b of shown) {
    const row = counts[first(b)];
    const at = second(b);
    if (row && at < row.length) row[at]!++;
  }
  return counts;
}

/** The bin of an index; the last holds 100 as well, and what is not scored has none. */
export const binOf = (index: number): number =>
  Number.isNaN(index) ? bins : Math.min(bins - 1, Math.floor(index / binWidth));

const filled = <T extends { readonly counts: ByTier }>(groups: readonly T[]): T[] =>
  groups.filter(({ counts }) => counts.some((n) => n > 0));

/** Counts of the buildings shown, by questions to the analysis that bring ordinals and no rows. */
export async function askTallies(
  analyst: Pick<Analyst, 'order'>,
  frame: Frame,
  shown: Int32Array,
): Promise<Tallies> {
  const regions = wordClasses(frame.counts.region, mostRegions);
  const materials = wordClasses(frame.counts.material, mostMaterials);
  const ask = (column: string, classes: readonly Class[]) =>
    classed(analyst, frame.n, column, classes);
  const low = await ask('tier_low', tierClasses);
  const high = await ask('tier_high', tierClasses);
  const region = await ask('region', regions);
  const material = await ask('material', materials);
  const era = await ask('installed_used', eras);
  const tierOf = (b: number) => frame.tier[b]!;
  const one = (of: (b: number) => number) => crossed(shown, () => 0, of, [1, tiers.length])[0]!;
  return {
    n: shown.length,
    tier: one(tierOf),
    low: one((b) => low[b]!),
    high: one((b) => high[b]!),
    bins: crossed(shown, (b) => binOf(indexOf(frame.cents[b]!)), tierOf, [bins, tiers.length]),
    regions: filled(
      crossed(shown, (b) => region[b]!, tierOf, [regions.length + 1, tiers.length]).map(
        (counts, i) => ({ label: regions[i]?.label ?? 'other, or no record', counts }),
      ),
    ),
    ...matrixOf(shown, frame, materials, material, era),
  };
}

function matrixOf(
  shown: Int32Array,
  frame: Frame,
  materials: readonly Class[],
  material: Uint8Array,
  era: Uint8Array,
): Pick<Tallies, 'eras' | 'materials'> {
  const sizes = [materials.length + 1, eras.length + 1] as const;
  const isFirst = (b: number) => frame.tier[b] === 0;
  const all = crossed(
    shown,
    (b) => material[b]!,
    (b) => era[b]!,
    sizes,
  );
  const first = crossed(
    shown.filter(isFirst),
    (b) => material[b]!,
    (b) => era[b]!,
    sizes,
  );
  const rows = all.map((counts, i) => ({
    label: materials[i]?.label ?? 'other, or no record',
    cells: counts.map((n, j) => ({ all: n, first: first[i]![j]! })),
  }));
  return {
    eras: [...eras.map(({ label }) => label), 'no record'],
    materials: rows.filter(({ cells }) => cells.some(({ all }) => all > 0)),
  };
}

interface Piece {
  readonly tier: number;
  readonly from: number;
  readonly to: number;
}

/** Counts by tier end to end, the foremost tier first; empty ones are left out. */
export function piecesOf(counts: ByTier): Piece[] {
  let from = 0;
  return counts
    .map((n, tier) => {
      const piece = { tier, from, to: from + n };
      from += n;
      return piece;
    })
    .filter(({ from, to }) => to > from);
}
