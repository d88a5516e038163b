import type { Allocation } from './allocate.ts';
import type { Exclusion } from './frame.ts';
import { defaultFloor } from './sizes.ts';
import type { Design, StratumField } from './types.ts';

/** How a sample is to be drawn. Together with the population and the seed it settles every unit. */
export interface SelectionRequest {
  readonly design: Design;
  /** Units to select in all, those to be included whatever the draw among them. */
  readonly openings: number;
  /** A whole number from 0. */
  readonly seed: number;
  /** Fields whose levels, crossed, are the strata; the first counts most when strata are merged. */
  readonly strata: readonly StratumField[];
  readonly allocation: Allocation;
  /** Of the balanced design: every unit alike, or in proportion to wetting × area. */
  readonly chances: 'equal' | 'by size';
  /** Independent draws of the replicated design, 4 or more. */
  readonly replicates: number;
  /** Replacements drawn in each stratum after the sample, in order. */
  readonly replacementsPerStratum: number;
  readonly exclusions: readonly Exclusion[];
  readonly mustInclude: readonly string[];
  /** 0 for none; above it the selection is no probability sample. */
  readonly minimumDistanceKm: number;
  /** Of the balanced design: spread over directions as well. */
  readonly withAzimuth: boolean;
  /** Size of units without wetting or area, as a share of the mean size. */
  readonly sizeFloor: number;
}

export const defaultRequest: SelectionRequest = {
  design: 'simple',
  openings: 20,
  seed: 1,
  strata: [],
  allocation: { kind: 'proportional' },
  chances: 'equal',
  replicates: 4,
  replacementsPerStratum: 0,
  exclusions: [],
  mustInclude: [],
  minimumDistanceKm: 0,
  withAzimuth: false,
  sizeFloor: defaultFloor,
};

const leastReplicates = 4;

const isCount = (x: number): boolean => Number.isSafeInteger(x) && x >= 0;

/** Designs that divide the frame. */
export const usesStrata = ({ design }: SelectionRequest): boolean =>
  design === 'stratified' || design === 'pps' || design === 'balanced';

export const drawsBySize = ({ design, chances }: SelectionRequest): boolean =>
  design === 'pps' || design === 'replicated' || (design === 'balanced' && chances === 'by size');

export const isByHand = (request: SelectionRequest): boolean =>
  request.allocation.kind === 'by hand' && usesStrata(request) && request.strata.length > 0;

const asks: readonly [refuses: (request: SelectionRequest) => boolean, says: string][] = [
  [
    (r) => !(isCount(r.openings) && r.openings > 0) && !isByHand(r),
    'The number of openings must be a whole number of 1 or more.',
  ],
  [(r) => !isCount(r.seed), 'The seed must be a whole number of 0 or more, such as 20260401.'],
  [
    (r) => !isCount(r.replacementsPerStratum),
    'The number of replacements must be a whole number of 0 or more.',
  ],
  [
    (r) => r.design === 'replicated' && !(isCount(r.replicates) && r.replicates >= leastReplicates),
    `Replicated draws must be a whole number of ${leastReplicates} or more: fewer tell too little about their spread.`,
  ],
  [(r) => !(r.minimumDistanceKm >= 0), 'The minimum distance must be a number of 0 km or more.'],
  [
    (r) => r.minimumDistanceKm > 0 && r.design !== 'simple' && r.design !== 'stratified',
    'A minimum distance can be kept by simple and stratified selection only; balanced selection spreads the walls without one.',
  ],
];

/** What is wrong with a request, in sentences. */
export const wrongWith = (request: SelectionRequest): string[] =>
  asks.filter(([refuses]) => refuses(request)).map(([, says]) => says);
