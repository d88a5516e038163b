import type { SampleUnit } from '../sample/types.ts';
import type { Response } from './respond.ts';
import type { Question, ShareEstimate } from './share.ts';

/** Share of the wall area that stands on units with softened or decayed sheathing, and that area in the frame. */
export interface AreaEstimate extends ShareEstimate {
  readonly areaM2: number;
  readonly lowM2: number;
  readonly highM2: number;
}

export interface StratumEstimate {
  readonly stratum: string;
  readonly units: number;
  /** Null where nothing was answered. */
  readonly share: ShareEstimate | null;
}

export interface Estimates {
  readonly share: ShareEstimate;
  readonly area: AreaEstimate;
}

/** What a plan and its findings say of the population that was sampled. */
export interface Inference {
  readonly unit: SampleUnit;
  /** Where it is not, there is no overall estimate. */
  readonly probabilitySample: boolean;
  readonly units: number;
  readonly question: Question;
  readonly response: Response;
  /** From the selected units alone, reweighted for those not answered; null where none was answered. */
  readonly overall: Estimates | null;
  readonly strata: readonly StratumEstimate[];
  /** The same with answered replacements put beside the selected units; null where there are none. */
  readonly withReplacements: Estimates | null;
  /** What the figures mean and what they leave open, in sentences. */
  readonly says: readonly string[];
}
