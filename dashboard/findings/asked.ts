import type { InferenceOptions } from '../../analysis/findings/infer.ts';

/** What the reader asks of the intervals, as typed. */
export interface Asked {
  /** %, e.g. 95. */
  readonly confidence: string;
  /** Chance that an opening on softened or decayed sheathing shows it. */
  readonly detection: string;
}

export const usual: Asked = { confidence: '95', detection: '1' };

const typed = (text: string): number => (text.trim() === '' ? Number.NaN : Number(text));

/** Why a confidence cannot be taken; null where it can. */
export const confidenceTrouble = ({ confidence }: Asked): string | null =>
  typed(confidence) >= 50 && typed(confidence) <= 99.9
    ? null
    : 'The confidence is a percentage from 50 to 99.9. The estimates stand as they were.';

/** Why a chance of detection cannot be taken; null where it can. */
export const detectionTrouble = ({ detection }: Asked): string | null =>
  typed(detection) >= 0.05 && typed(detection) <= 1
    ? null
    : 'The chance that an opening shows it is a number from 0.05 to 1. The estimates stand as they were.';

/** The options for the analysis; null while one of them cannot be taken. */
export const optionsOf = (asked: Asked): Required<InferenceOptions> | null =>
  confidenceTrouble(asked) || detectionTrouble(asked)
    ? null
    : {
        confidence: Math.round(typed(asked.confidence) * 1e6) / 1e8,
        detection: typed(asked.detection),
      };
