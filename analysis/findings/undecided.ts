import { backward, forward } from '../stations/cholesky.ts';
import type { Model } from './calibrate.ts';
import { chanceAt, linear } from './logistic.ts';
import { beyond, type Predictors, standardised } from './scale.ts';

/** A wall that is not yet opened. */
export interface OpenWall {
  readonly unit: string;
  readonly index: number;
  readonly low: number;
  readonly high: number;
}

export interface Undecided {
  readonly unit: string;
  /** What opening it is ranked by: width of the index interval, or expected number of other walls that change tier. */
  readonly worth: number;
  /** Thresholds between low and high; those of the index. */
  readonly thresholds: readonly number[];
}

const byWorth = (a: Undecided, b: Undecided): number =>
  b.worth - a.worth || (a.unit < b.unit ? -1 : 1);

const round = (x: number): number => Math.round(x * 1e6) / 1e6;

const straddled = ({ low, high }: OpenWall, thresholds: readonly number[]): number[] =>
  thresholds.filter((threshold) => low < threshold && threshold <= high);

/** Without calibration: walls whose interval reaches over the threshold of a tier, the widest interval first. */
export function undecidedByInterval(
  walls: readonly OpenWall[],
  thresholds: readonly number[],
): Undecided[] {
  return walls
    .map((wall) => ({
      unit: wall.unit,
      worth: round(wall.high - wall.low),
      thresholds: straddled(wall, thresholds),
    }))
    .filter((one) => one.thresholds.length > 0)
    .sort(byWorth);
}

interface Candidate {
  readonly wall: OpenWall & Predictors;
  readonly x: Float64Array;
  readonly eta: number;
  /** x in the metric of what is known: x′ H⁻¹. */
  readonly reach: Float64Array;
}

function candidateOf(model: Model, wall: OpenWall & Predictors): Candidate {
  const x = standardised(model.scale, wall);
  const reach = x.slice();
  forward(model.fit.factor, x.length, reach);
  backward(model.fit.factor, x.length, reach);
  return { wall, x, eta: linear(model.fit.beta, x), reach };
}

/**
 * Cuts of the linear predictor that leave as many walls above as the index has at or above each threshold, so that tiers
 * by calibrated chance are as large as those by index.
 */
function cutsOf(candidates: readonly Candidate[], thresholds: readonly number[]): number[] {
  const falling = Float64Array.from(candidates, ({ eta }) => eta)
    .sort()
    .reverse();
  return thresholds.flatMap((threshold) => {
    const above = candidates.filter(({ wall }) => wall.index >= threshold).length;
    if (above === 0 || above === falling.length) return [];
    return [(falling[above - 1]! + falling[above]!) / 2];
  });
}

/** How much more than the best look a wall's own spread could teach: the order in which candidates are tried. */
const promise = ({ x, eta, reach }: Candidate): number => {
  const p = chanceAt(eta);
  return p * (1 - p) * linear(reach, x);
};

/** Others that would come to lie in another tier if every predictor x moved by x′ · shift. */
function crossings(
  own: Candidate,
  others: readonly Candidate[],
  shift: Float64Array,
  cuts: readonly number[],
): number {
  let crossed = 0;
  for (const other of others) {
    if (other === own) continue;
    const after = other.eta + linear(shift, other.x);
    if (cuts.some((cut) => other.eta >= cut !== after >= cut)) crossed += 1;
  }
  return crossed;
}

/** One Newton step of the model with this wall's outcome put beside the others (Sherman and Morrison's rank-one form). */
function worthOf(own: Candidate, all: readonly Candidate[], cuts: readonly number[]): number {
  const p = chanceAt(own.eta);
  const damping = 1 + p * (1 - p) * linear(own.reach, own.x);
  const after = (outcome: 0 | 1): number =>
    crossings(
      own,
      all,
      own.reach.map((r) => (r * (outcome - p)) / damping),
      cuts,
    );
  return p * after(1) + (1 - p) * after(0);
}

/** Most walls tried at once: each is weighed against all others. */
const mostCandidates = 500;

/**
 * With calibration: the expected number of *other* walls whose tier by calibrated chance would change if this wall were
 * opened, over both outcomes by their present chance, most first. A wall's outcome enters as one finding of mean weight.
 * Walls beyond the findings have no chance and are left out; of more than 500, those are tried that can move the model
 * most.
 */
export function undecidedByLearning(
  model: Model,
  walls: readonly (OpenWall & Predictors)[],
  thresholds: readonly number[],
): Undecided[] {
  const all = walls
    .filter((wall) => beyond(model.scale, wall).length === 0)
    .map((wall) => candidateOf(model, wall));
  const cuts = cutsOf(all, thresholds);
  const tried = [...all].sort((a, b) => promise(b) - promise(a)).slice(0, mostCandidates);
  return tried
    .map((one) => ({
      unit: one.wall.unit,
      worth: round(worthOf(one, all, cuts)),
      thresholds: straddled(one.wall, thresholds),
    }))
    .filter(({ worth }) => worth > 0)
    .sort(byWorth);
}
