/** When a worker died: in milliseconds of the page's clock, and whether it had come to work before. */
export interface Death {
  readonly at: number;
  readonly started: boolean;
}

/** Milliseconds within which deaths count together. */
const TOGETHER = 120_000;
const MOST = 3;

/** True where starting anew is worth it: not after two starts in a row that led nowhere, nor three deaths in 2 min. */
export function worthAnother(deaths: readonly Death[]): boolean {
  const [last, before] = deaths.toReversed();
  if (!last) return true;
  if (before && !last.started && !before.started) return false;
  return deaths.filter(({ at }) => last.at - at < TOGETHER).length < MOST;
}
