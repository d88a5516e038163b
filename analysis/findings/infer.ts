import type { Columns } from '../columns.ts';
import type { Answer } from './answer.ts';
import type { AreaEstimate, Estimates, Inference, StratumEstimate } from './inference.ts';
import { frameArea, type PlanOutline } from './plan.ts';
import { type Responses, respond } from './respond.ts';
import { inferenceSays } from './say.ts';
import { estimateShare, perArea, perUnit, type Question } from './share.ts';
import { type ResponseClass, responseClasses } from './weights.ts';

export interface InferenceOptions {
  /** Of the intervals; 0.95 where absent. */
  readonly confidence?: number;
  /** Chance that an opening on softened or decayed sheathing shows it; 1 where absent. */
  readonly detection?: number;
}

function areaEstimate(
  classes: readonly ResponseClass[],
  question: Question,
  plan: PlanOutline,
): AreaEstimate {
  const estimate = estimateShare(classes, question, perArea);
  const frame = frameArea(plan);
  return {
    ...estimate,
    areaM2: estimate.share * frame,
    lowM2: estimate.low * frame,
    highM2: estimate.high * frame,
  };
}

function estimates(
  classes: readonly ResponseClass[],
  question: Question,
  plan: PlanOutline,
): Estimates | null {
  const answered = classes.filter(({ members }) => members.length > 0);
  if (answered.length === 0 || !plan.probabilitySample) return null;
  return {
    share: estimateShare(answered, question, perUnit),
    area: areaEstimate(answered, question, plan),
  };
}

function stratumEstimates(
  classes: readonly ResponseClass[],
  question: Question,
  { strata }: PlanOutline,
): StratumEstimate[] {
  return strata.map(({ stratum, units }) => {
    const own = classes.filter((one) => one.stratum === stratum && one.members.length > 0);
    return { stratum, units, share: own.length > 0 ? estimateShare(own, question) : null };
  });
}

const answersAnd = ({ answers, replacements }: Responses): Answer[] => [
  ...answers,
  ...replacements,
];

function checked({ confidence = 0.95, detection = 1 }: InferenceOptions): void {
  if (!(confidence > 0 && confidence < 1)) throw new Error(`confidence ${confidence}`);
  if (!(detection > 0 && detection <= 1)) throw new Error(`detection ${detection}`);
}

/**
 * Share and area with softened or decayed sheathing in the population of a plan, from the findings that belong to it, by
 * stratum and overall, with the variance and the interval that belong to how the units were drawn. Throws on a confidence
 * outside 0-1 or a detection outside 0 (exclusive) to 1: mistakes of our code.
 */
export function infer(
  plan: PlanOutline,
  findings: Columns,
  options: InferenceOptions = {},
): Inference {
  checked(options);
  const { confidence = 0.95, detection = 1 } = options;
  const question: Question = { design: plan.design, confidence, detection };
  const responses = respond(plan, findings);
  const classes = responseClasses(responses.selected, responses.answers);
  const replaced = responseClasses(responses.selected, answersAnd(responses));
  const overall = estimates(classes, question, plan);
  const told = {
    unit: plan.unit,
    probabilitySample: plan.probabilitySample,
    units: plan.strata.reduce((sum, { units }) => sum + units, 0),
    question,
    response: responses.response,
    overall,
    strata: stratumEstimates(classes, question, plan),
    withReplacements:
      responses.replacements.length > 0 ? estimates(replaced, question, plan) : null,
  };
  const asIfSure = detection < 1 ? estimates(classes, { ...question, detection: 1 }, plan) : null;
  const says = inferenceSays(told, classes, asIfSure?.share ?? null);
  return { ...told, says: [...says, ...responses.says] };
}
