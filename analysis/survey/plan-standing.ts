import { planChanged, planDigest, planText, type SamplingPlan } from '../sample/plan.ts';
import type { DrawnPlan, FieldUnit } from './draw.ts';

/** A plan as it stood before fieldwork. */
export interface LockedPlan {
  readonly plan: SamplingPlan;
  readonly digest: string;
  readonly field: readonly FieldUnit[];
  /** ISO 8601. */
  readonly lockedAt: string;
}

/** A plan as it is shown and printed: locked under its digest, or still a draft. */
export interface ShownPlan {
  readonly plan: SamplingPlan;
  readonly field: readonly FieldUnit[];
  /** Null for a draft. */
  readonly locked: { readonly digest: string; readonly at: string } | null;
}

export const draftWord = 'DRAFT, not locked';

/** What stands on every sheet and in every file of a plan. */
export const standingWord = ({ locked }: ShownPlan): string =>
  locked ? `locked ${locked.at}` : draftWord;

/**
 * A plan as it will be read back from storage: plain JSON, a missing number is null. Its digest is the same, for the
 * canonical text writes both as null.
 */
const asKept = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

/** Locks a draft: the digest is of the text that `planText` writes. */
export function lockedPlan(
  { plan, field }: Pick<DrawnPlan, 'plan' | 'field'>,
  at: string,
): LockedPlan {
  const kept = asKept({ plan, field });
  return { ...kept, digest: planDigest(kept.plan), lockedAt: at };
}

export const shownLocked = ({ plan, field, digest, lockedAt }: LockedPlan): ShownPlan => ({
  plan,
  field,
  locked: { digest, at: lockedAt },
});

/** Whether a locked plan is still what was locked. */
export const isChanged = ({ plan, locked }: ShownPlan): boolean =>
  locked !== null && planChanged(plan, locked.digest);

/** What still has to be given before a plan can be locked, in words. */
export function missingForLock({ head }: SamplingPlan, taken: readonly string[]): string[] {
  const blank = (
    [
      [head.planId, 'a title'],
      [head.chosenBy, 'who chose it'],
      [head.chosenOn, 'the day on which it was chosen'],
      [head.frameDate, 'the date of the frame'],
      [head.sizeReason, 'the reason for the number of openings'],
    ] as const
  ).flatMap(([value, what]) => (value.trim() === '' ? [what] : []));
  return [
    ...(blank.length > 0 ? [`Before it can be locked, the plan needs ${blank.join(', ')}.`] : []),
    ...(taken.includes(head.planId)
      ? [`A locked plan is called ${head.planId} already: give this one another title.`]
      : []),
  ];
}

/** Files that are not as they were when the plan was drawn, in words; empty where all are the same. */
export function changedInputs(
  { head }: SamplingPlan,
  now: Readonly<Record<string, string>>,
): string[] {
  const then = head.inputs;
  const changed = Object.keys(then).filter(
    (name) => now[name] !== undefined && now[name] !== then[name],
  );
  const gone = Object.keys(then).filter((name) => now[name] === undefined);
  const added = Object.keys(now).filter((name) => then[name] === undefined);
  const line = (files: readonly string[], what: string) =>
    files.length > 0 ? [`${files.join(', ')}: ${what}`] : [];
  return [
    ...line(changed, 'changed since the plan was drawn.'),
    ...line(gone, 'no longer open.'),
    ...line(added, 'not open when the plan was drawn.'),
  ];
}

/** The text that was digested. */
export const lockedText = ({ plan }: ShownPlan): string => planText(plan);
