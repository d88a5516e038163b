import { canonicalJson, digestOf, type Plain } from './canonical.ts';
import { generatorName } from './random.ts';
import { drawsBySize, type SelectionRequest } from './request.ts';
import type { Selection } from './select.ts';
import { azimuthRule, spaceRule } from './space.ts';
import { mergeRule } from './strata.ts';
import type { Design, SampleUnit, SelectedUnit, StratumRow } from './types.ts';

/** What the caller knows of a plan: the method has no clock and knows no names. */
export interface PlanHead {
  readonly planId: string;
  /** The population in words, such as the filter by which it was chosen. */
  readonly population: string;
  /** Day on which the frame was drawn up, as written. */
  readonly frameDate: string;
  readonly chosenBy: string;
  readonly chosenOn: string;
  readonly software: string;
  /** SHA-256 of the files the frame was made from, by name. */
  readonly inputs: Readonly<Record<string, string>>;
  readonly costs: Readonly<Record<string, number>>;
  /** How the number of openings was found, in words. */
  readonly sizeReason: string;
}

/** A sampling plan as plain data, after ASTM E141: population, frame, procedure, chances, and their limits. */
export interface SamplingPlan {
  readonly head: PlanHead;
  readonly unit: SampleUnit;
  readonly frame: {
    /** Units left after exclusions, those to be included among them. */
    readonly units: number;
    readonly excluded: Selection['excluded'];
  };
  readonly design: Design;
  readonly method: readonly string[];
  readonly generator: string;
  readonly seed: number;
  readonly request: SelectionRequest;
  readonly strata: Selection['strata'];
  readonly merged: Selection['merged'];
  readonly probabilitySample: boolean;
  readonly units: readonly SelectedUnit[];
  readonly limits: readonly string[];
}

const methods: Readonly<Record<Design, string>> = {
  simple: 'Simple random selection without replacement: every unit left to chance alike.',
  stratified:
    'Stratified: simple random selection without replacement in each stratum, independently.',
  pps: 'Chances in proportion to wetting × area; systematic selection with a random start from the units in random order (Madow), in each stratum.',
  replicated:
    'Chances in proportion to wetting × area; independent systematic draws of equal size from the units in random order, each over the whole frame.',
  balanced:
    'Balanced: local pivotal method 2 (Grafström, Lundström and Schelin 2012), in each stratum.',
};

const allocations: Readonly<Record<SelectionRequest['allocation']['kind'], string>> = {
  proportional:
    'Openings in proportion to the units of a stratum, at least two where possible, else one; largest remainders are rounded up.',
  neyman:
    'Openings in proportion to N√(P(1 − P)) of a stratum (Neyman), P the expected share; at least two where possible, else one; largest remainders are rounded up.',
  'by hand': 'Openings of each stratum set by hand.',
};

function methodOf(request: SelectionRequest, { strata, merged }: Selection): string[] {
  const { design } = request;
  const by = request.strata.join(' × ');
  const drawnStrata = strata.length > 1 && by !== '';
  return [
    methods[design],
    ...(drawnStrata ? [`Strata by ${by}.`, allocations[request.allocation.kind]] : []),
    ...(merged.length > 0 ? [mergeRule] : []),
    ...(design === 'balanced'
      ? [`Balanced over: ${spaceRule}`, ...(request.withAzimuth ? [azimuthRule] : [])]
      : []),
    ...(drawsBySize(request)
      ? [
          `Units whose chance would pass 1 are certain, and the rest is shared anew; units without a size are drawn as if of ${request.sizeFloor} × the mean size.`,
        ]
      : []),
    'The population is sorted by id before anything is drawn.',
  ];
}

const always = [
  'The sample speaks for the units of the frame as of its date, and for no other.',
  'Replacements have no chance of their own: they stand for units that could not be opened, and are nonresponse in any estimate.',
  'A unit that was not opened has not been looked at: its place in the ranking is no clearance.',
  'Screening, not diagnosis. Local codes and a licensed professional decide.',
];

function limitsOf(
  request: SelectionRequest,
  { probabilitySample, strata, excluded }: Selection,
  says: readonly string[],
): string[] {
  const none = strata.filter(({ openings }) => openings === 0).map(({ stratum }) => stratum);
  return [
    ...(probabilitySample
      ? []
      : ['Not a probability sample: it does not bear an estimate for the frame.']),
    ...(request.minimumDistanceKm > 0
      ? [`A minimum distance of ${request.minimumDistanceKm} km was kept.`]
      : []),
    ...(none.length > 0 ? [`Nothing is opened in: ${none.join('; ')}.`] : []),
    ...excluded.map(({ reason, units }) => `Excluded, ${reason}: ${units}.`),
    ...says,
    ...always,
  ];
}

/** Puts together the plan of a selection. `says` are the remarks that came with it. */
export function planOf(
  head: PlanHead,
  unit: SampleUnit,
  request: SelectionRequest,
  selection: Selection,
  says: readonly string[] = [],
): SamplingPlan {
  const { strata, merged, excluded, probabilitySample, units } = selection;
  const frameUnits = strata.reduce((sum: number, row: StratumRow) => sum + row.units, 0);
  return {
    head,
    unit,
    frame: { units: frameUnits, excluded },
    design: request.design,
    method: methodOf(request, selection),
    generator: generatorName,
    seed: request.seed,
    request,
    strata,
    merged,
    probabilitySample,
    units,
    limits: limitsOf(request, selection, says),
  };
}

/** Plain data all through: interfaces have no index signature, which alone keeps the types from saying so. */
const plain = (plan: SamplingPlan): Plain => plan as unknown as Plain;

/** The text that is locked. */
export const planText = (plan: SamplingPlan): string => canonicalJson(plain(plan));

/** Locks a plan: noted before fieldwork, it shows any later change. SHA-256, 64 hexadecimal digits. */
export const planDigest = (plan: SamplingPlan): string => digestOf(plain(plan));

export const planChanged = (plan: SamplingPlan, digest: string): boolean =>
  planDigest(plan) !== digest.trim().toLowerCase();
