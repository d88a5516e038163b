import { cautionTexts } from '../cautions.ts';
import type { Inference } from '../findings/inference.ts';
import { methodVersion, softwareName } from '../version.ts';
import type { LockedPlan } from './plan-standing.ts';

/** What stands beside every file that is saved here. */
const made = { caution: cautionTexts, software: softwareName, method: methodVersion } as const;

const jsonText = (told: unknown): string => `${JSON.stringify(told, null, 2)}\n`;

/** What the findings say of the population of a plan, as JSON: a missing number is null. Shares 0-1, areas m². */
export function inferenceText(
  { plan, digest, lockedAt }: LockedPlan,
  inference: Inference,
  demo: boolean,
): string {
  const { planId, population, frameDate } = plan.head;
  return jsonText({
    ...made,
    invented_example: demo,
    plan: {
      plan_id: planId,
      sha256: digest,
      locked_at: lockedAt,
      population,
      frame_date: frameDate,
      design: plan.design,
      seed: plan.seed,
      generator: plan.generator,
    },
    inference,
  });
}

/** What made a file of findings, and the cautions that go with it. */
export const findingsAbout = (files: readonly string[], rows: number, demo: boolean): string =>
  jsonText({ ...made, invented_example: demo, read_from: files, rows });
