import type { Random } from '../sample/random.ts';
import {
  brierSkill,
  foldsOf,
  groupsOf,
  type HeldOut,
  heldOut,
  meanDeviance,
  redrawn,
} from './grouped.ts';
import { chanceAt, type Fit, fitLogistic, linear, type Outcomes } from './logistic.ts';
import { type ReliabilityBin, reliability } from './reliability.ts';
import { beyond, type Predictors, type Scale, scaleOf, standardised } from './scale.ts';

/** A wall of a probability plan that was opened. */
export interface LearnedWall extends Predictors {
  readonly building: string;
  /** Units of the frame that it speaks for: 1 / its chance of being selected. */
  readonly weight: number;
  readonly softened: boolean;
}

/** From how much on anything is learnt, and when it is shown. Judgement, of the method. */
export const gates = {
  findings: 40,
  buildings: 15,
  ofEachOutcome: 10,
  folds: 10,
  redraws: 500,
  positive: 0.95,
} as const;

/** Penalties tried, per unit of mean weight: half decades. */
const penalties = Array.from({ length: 11 }, (_, i) => 10 ** (-1 + i / 2));

export interface Model {
  readonly scale: Scale;
  readonly fit: Fit;
  readonly penalty: number;
}

/** What was learnt, and how well it foretold walls of buildings it had not seen. */
interface Learning {
  readonly model: Model;
  readonly walls: number;
  readonly buildings: number;
  /** Grouped Brier skill over the base rate. */
  readonly skill: number;
  /** Share of the redraws in which it was above 0. */
  readonly positive: number;
  readonly reliability: readonly ReliabilityBin[];
}

export interface Calibration {
  /** Whether a calibrated probability may stand beside the index. */
  readonly shown: boolean;
  /** Null where there was too little to learn from. */
  readonly learning: Learning | null;
  readonly says: string;
}

/** What is missing before anything can be learnt; null where nothing is. */
function missing(walls: readonly LearnedWall[]): string | null {
  const buildings = new Set(walls.map(({ building }) => building)).size;
  const softened = walls.filter((wall) => wall.softened).length;
  const rarer = Math.min(softened, walls.length - softened);
  const { findings, buildings: least, ofEachOutcome } = gates;
  if (walls.length >= findings && buildings >= least && rarer >= ofEachOutcome) return null;
  return `Nothing is learnt from the findings yet: that takes at least ${findings} opened walls of a sample drawn by chance, in ${least} buildings, ${ofEachOutcome} of them with softened or decayed sheathing and ${ofEachOutcome} without. So far there are ${walls.length} in ${buildings}, ${softened} with and ${walls.length - softened} without.`;
}

function outcomesOf(walls: readonly LearnedWall[], scale: Scale): Outcomes {
  const mean = walls.reduce((sum, { weight }) => sum + weight, 0) / walls.length;
  return {
    x: walls.map((wall) => standardised(scale, wall)),
    y: Float64Array.from(walls, ({ softened }) => (softened ? 1 : 0)),
    weight: Float64Array.from(walls, ({ weight }) => weight / mean),
  };
}

interface Chosen {
  readonly penalty: number;
  readonly held: HeldOut;
}

/** The penalty whose held-out deviance is least; the greater of two alike. */
function choosePenalty(outcomes: Outcomes, fold: Int32Array): Chosen {
  const start = new Float64Array(outcomes.x[0]!.length);
  const tried = penalties.map((penalty) => {
    const held = heldOut(outcomes, fold, penalty, start);
    return { penalty, held, deviance: meanDeviance(outcomes, held.eta) };
  });
  return tried.reduce((best, one) => (one.deviance <= best.deviance ? one : best));
}

/** Steps of the redraws stop early: their skill is only compared with 0. */
const redrawTolerance = 1e-5;

/** Share of redraws of buildings in which the model, learnt anew by folds of buildings, beats the base rate. */
function positiveShare(
  outcomes: Outcomes,
  buildings: readonly string[],
  { fit, penalty }: Model,
  random: Random,
): number {
  const { group, count } = groupsOf(buildings);
  let positive = 0;
  for (let i = 0; i < gates.redraws; i += 1) {
    const times = redrawn(count, random);
    const weight = outcomes.weight.map((w, row) => w * times[group[row]!]!);
    const fold = foldsOf(group, count, gates.folds, random);
    const again = { ...outcomes, weight };
    const held = heldOut(again, fold, penalty, fit.beta, redrawTolerance);
    if (brierSkill(again, held) > 0) positive += 1;
  }
  return positive / gates.redraws;
}

function learn(walls: readonly LearnedWall[], random: Random): Learning {
  const scale = scaleOf(walls);
  const outcomes = outcomesOf(walls, scale);
  const buildings = walls.map(({ building }) => building);
  const { group, count } = groupsOf(buildings);
  const fold = foldsOf(group, count, gates.folds, random);
  const { penalty, held } = choosePenalty(outcomes, fold);
  const fit = fitLogistic(outcomes, penalty, new Float64Array(scale.length + 1));
  const model = { scale, fit, penalty };
  return {
    model,
    walls: walls.length,
    buildings: count,
    skill: brierSkill(outcomes, held),
    positive: positiveShare(outcomes, buildings, model, random),
    reliability: reliability(outcomes, held.eta),
  };
}

function verdict({ walls, buildings, skill, positive }: Learning, shown: boolean): string {
  const tried = `on walls of buildings that it had not seen it did better than the overall share in ${Math.round(positive * 1000) / 10} % of ${gates.redraws} redraws of the buildings (Brier skill ${skill.toFixed(2)})`;
  return shown
    ? `Learnt from these ${walls} walls in ${buildings} buildings, not for other portfolios: ${tried}.`
    : `What the ${walls} opened walls teach is not shown: ${tried}, and ${gates.positive * 100} % is asked for. The index stands alone.`;
}

/**
 * Learns from opened walls how softened or decayed sheathing goes with the load, deficiency and susceptibility of the
 * index: weighted ridge logistic regression, its penalty by folds of buildings. Shown only where it beats the overall
 * share on unseen buildings in almost all redraws. One row a wall, of probability plans only.
 */
export function calibrate(walls: readonly LearnedWall[], random: Random): Calibration {
  const tooLittle = missing(walls);
  if (tooLittle) return { shown: false, learning: null, says: tooLittle };
  const learning = learn(walls, random);
  const shown = learning.positive >= gates.positive;
  return { shown, learning, says: verdict(learning, shown) };
}

const round = (x: number): number => Math.round(x * 1e6) / 1e6;

/**
 * Chance, to 1e-6, that a wall's sheathing is softened or decayed; null where the wall lies beyond the findings in any
 * predictor, for nothing was learnt there.
 */
export const calibratedChance = ({ scale, fit }: Model, wall: Predictors): number | null =>
  beyond(scale, wall).length > 0
    ? null
    : round(chanceAt(linear(fit.beta, standardised(scale, wall))));
