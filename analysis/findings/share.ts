import type { Design } from '../sample/types.ts';
import { designVariance, type VarianceKind } from './design-variance.ts';
import {
  clopperPearson,
  effectiveSize,
  exactInterval,
  type Interval,
  kornGraubard,
} from './interval.ts';
import { isKnown, type ResponseClass, type Weighted } from './weights.ts';

/** What is asked of the answers. */
export interface Question {
  readonly design: Design;
  /** Of the intervals, e.g. 0.95. */
  readonly confidence: number;
  /** Chance that an opening on softened or decayed sheathing shows it. */
  readonly detection: number;
}

export interface ShareEstimate extends Interval {
  /** Units answered, and those with softened or decayed sheathing. */
  readonly n: number;
  readonly found: number;
  readonly share: number;
  readonly standardError: number;
  readonly variance: VarianceKind | 'none: every unit was opened';
  readonly interval: 'exact hypergeometric' | 'Korn-Graubard' | 'none: every unit was opened';
  /** Openings of a simple random sample that would tell as much. */
  readonly effectiveSize: number;
  /** Variance over that of a simple random sample of as many openings; null where all openings are alike. */
  readonly designEffect: number | null;
  /** Beside the exact interval: the binomial one, which forgets that the population is finite. */
  readonly clopperPearson: Interval | null;
}

/** What is added up: units, or square metres of wall. */
export type Measure = (one: Weighted) => number;
export const perUnit: Measure = () => 1;
export const perArea: Measure = ({ areaM2 }) => areaM2;

const sum = (values: readonly number[]): number => values.reduce((total, x) => total + x, 0);
const membersOf = (classes: readonly ResponseClass[]): Weighted[] =>
  classes.flatMap(({ members }) => members);
const totalOf = (members: readonly Weighted[], measure: Measure): number =>
  sum(members.map((one) => one.weight * measure(one)));
const distinct = (members: readonly Weighted[]): number =>
  new Set(members.map(({ unit }) => unit)).size;
const marked = (one: Weighted): boolean => one.softened;

interface Part {
  readonly classes: readonly ResponseClass[];
  readonly members: readonly Weighted[];
  /** Units of the frame; of those, the ones opened and the ones found with the attribute, each once. */
  readonly size: number;
  readonly opened: number;
  readonly found: number;
  readonly share: number;
}

function partOf(classes: readonly ResponseClass[], measure: Measure): Part {
  const members = membersOf(classes);
  const total = totalOf(members, measure);
  return {
    classes,
    members,
    size: sum(classes.map(({ size }) => size)),
    opened: distinct(members),
    found: distinct(members.filter(marked)),
    share: total > 0 ? totalOf(members.filter(marked), measure) / total : 0,
  };
}

/** (Σ x)² / Σ x². */
const weightedSize = (weights: readonly number[]): number =>
  sum(weights) ** 2 / sum(weights.map((w) => w * w));

/** Whether the units of the part were drawn with equal chances from one population, so that counts alone say all. */
const countsSayAll = ({ design }: Question, { classes }: Part, measure: Measure): boolean =>
  measure === perUnit && classes.length === 1 && (design === 'simple' || design === 'stratified');

/** Undoes the openings that missed: what was seen is `detection` times what is there. */
const undetected = ({ low, high }: Interval, detection: number): Interval => ({
  low: Math.min(1, low / detection),
  high: Math.min(1, high / detection),
});

/** What was opened is known of the whole: neither end goes beyond it. */
const withinKnown = (
  interval: Interval,
  { size, found, opened }: Part,
  detection: number,
): Interval => ({
  low: Math.max(interval.low, found / size),
  high: detection === 1 ? Math.min(interval.high, 1 - (opened - found) / size) : interval.high,
});

interface Sampled extends Interval {
  readonly variance: number;
  readonly kind: VarianceKind;
  readonly effectiveSize: number;
  readonly exact: boolean;
}

/** Estimates for the units among which chance chose. */
function sampledPart(part: Part, question: Question, measure: Measure): Sampled {
  const { classes, members, size, opened, found, share } = part;
  const { design, confidence, detection } = question;
  const total = totalOf(members, measure);
  const residual = (one: Weighted): number =>
    (measure(one) * ((one.softened ? 1 : 0) - share)) / total;
  const { variance, degreesOfFreedom, kind } = designVariance(design, classes, residual);
  const of = {
    share,
    variance: variance + ((1 - detection) * share) / size,
    n: opened,
    degreesOfFreedom,
    weightedN: weightedSize(members.map((one) => one.weight * measure(one))),
  };
  const exact = countsSayAll(question, part, measure);
  const interval = exact
    ? exactInterval({ size, drawn: opened, seen: found }, confidence, detection)
    : undetected(kornGraubard(of, confidence), detection);
  const known = measure === perUnit ? withinKnown(interval, part, detection) : interval;
  return {
    ...known,
    variance: of.variance,
    kind,
    exact,
    effectiveSize: effectiveSize(of, confidence),
  };
}

/** The units that were all opened: known, but for what openings miss. */
function knownInterval(
  { size, found, share }: Part,
  { confidence, detection }: Question,
): Interval {
  if (detection === 1 || size === 0) return { low: share, high: share };
  const { high } = exactInterval({ size, drawn: size, seen: found }, confidence, detection);
  return { low: share, high: Math.min(1, share + high - found / size) };
}

const binomial = ({ found, opened }: Part, { confidence, detection }: Question): Interval =>
  undetected(clopperPearson(found, opened, confidence), detection);

function designEffect(share: number, variance: number, n: number, size: number): number | null {
  const simple = ((share * (1 - share)) / (n - 1)) * ((size - n) / size);
  return simple > 0 ? variance / simple : null;
}

/** An estimate never contradicts what its interval already knows. */
const within = (share: number, { low, high }: Interval): number =>
  Math.min(high, Math.max(low, share));

/** Part of the whole, by the measure, in which chance had a part. */
const openWeight = (open: Part, whole: Part, measure: Measure): number =>
  totalOf(open.members, measure) / totalOf(whole.members, measure);

const nothingOpen = {
  standardError: 0,
  designEffect: null,
  clopperPearson: null,
  variance: 'none: every unit was opened',
  interval: 'none: every unit was opened',
} as const;

/**
 * Share of units (or, by `perArea`, of wall area) with softened or decayed sheathing, of classes that all have answers.
 * Units that were all opened enter as what they are; only the others have a variance.
 */
export function estimateShare(
  classes: readonly ResponseClass[],
  question: Question,
  measure: Measure = perUnit,
): ShareEstimate {
  const whole = partOf(classes, measure);
  const known = partOf(classes.filter(isKnown), measure);
  const open = partOf(
    classes.filter((one) => !isKnown(one)),
    measure,
  );
  const sure = knownInterval(known, question);
  const n = whole.opened;
  const counts = { n, found: whole.found };
  const there = ({ share }: Part): number => Math.min(1, share / question.detection);
  if (open.members.length === 0)
    return {
      ...counts,
      share: within(there(known), sure),
      ...sure,
      ...nothingOpen,
      effectiveSize: n,
    };
  const weight = openWeight(open, whole, measure);
  const mixed = (ofKnown: number, ofOpen: number): number =>
    Math.min(1, (1 - weight) * ofKnown + weight * ofOpen);
  const shifted = ({ low, high }: Interval): Interval => ({
    low: mixed(sure.low, low),
    high: mixed(sure.high, high),
  });
  const sampled = sampledPart(open, question, measure);
  const variance = weight ** 2 * sampled.variance;
  const interval = shifted(sampled);
  return {
    ...counts,
    ...interval,
    share: within(mixed(there(known), there(open)), interval),
    standardError: Math.sqrt(variance) / question.detection,
    variance: sampled.kind,
    interval: sampled.exact ? 'exact hypergeometric' : 'Korn-Graubard',
    effectiveSize: sampled.effectiveSize,
    designEffect: designEffect(whole.share, variance, n, whole.size),
    clopperPearson: sampled.exact ? shifted(binomial(open, question)) : null,
  };
}
