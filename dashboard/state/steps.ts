import type { PageState } from './page-state.ts';

/** What *undo* takes back: which buildings are asked for, and in what order. */
export type Asked = Pick<PageState, 'by' | 'sort' | 'filters'>;

/** Questions asked before this one, the newest last, and those taken back, the newest first. */
export interface Steps {
  readonly past: readonly Asked[];
  readonly future: readonly Asked[];
}

export const noSteps: Steps = { past: [], future: [] };

/** More than anyone goes back by hand. */
const kept = 100;

export const askedOf = ({ by, sort, filters }: PageState): Asked => ({ by, sort, filters });

const same = (a: Asked, b: Asked): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Letters typed into the search are one step together. */
const isTyping = (a: Asked, b: Asked): boolean =>
  a.filters.search !== b.filters.search &&
  same(a, { ...b, filters: { ...b.filters, search: a.filters.search } });

/** The steps after a change from one question to another; what was taken back is then gone. */
export function stepped({ past, future }: Steps, before: Asked, after: Asked): Steps {
  if (same(before, after)) return { past, future };
  const last = past.at(-1);
  const goesOn = last !== undefined && isTyping(last, before) && isTyping(before, after);
  return { past: goesOn ? past : [...past, before].slice(-kept), future: [] };
}

/** One step back from the question now asked; null where there is none. */
export function undone({ past, future }: Steps, now: Asked): { steps: Steps; asked: Asked } | null {
  const asked = past.at(-1);
  return asked ? { asked, steps: { past: past.slice(0, -1), future: [now, ...future] } } : null;
}

/** One step forward again; null where none was taken back. */
export function redone({ past, future }: Steps, now: Asked): { steps: Steps; asked: Asked } | null {
  const [asked, ...rest] = future;
  return asked ? { asked, steps: { past: [...past, now], future: rest } } : null;
}
