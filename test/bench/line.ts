import type { Browser } from 'playwright-core';

/** One measured work beside its baseline of the same run and what it should reach. Medians. */
export interface Line {
  readonly work: string;
  readonly figure: number;
  readonly unit: 'ms' | 'kB' | 'MB';
  /** What it is compared with; null where there is nothing, or where it is not at hand: `baselineName` says which. */
  readonly baseline: number | null;
  readonly baselineName: string;
  /** Null where the figure is told for its own sake. */
  readonly goal: Goal | null;
}

/** At most so much of the baseline, or so many of the unit. */
type Goal =
  | { readonly ratio: number }
  | { readonly most: number }
  /** So many more than the baseline. */
  | { readonly over: number };

/** What the subjects share; the page and its browser are started when first asked for. */
export interface Bench {
  /** Where temporary files go. */
  readonly folder: string;
  readonly browser: () => Promise<Browser>;
  /** Address of the built page. */
  readonly origin: () => Promise<string>;
}

/** A subject measures some lines. */
export type Subject = (bench: Bench) => Promise<readonly Line[]>;

export const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[values.length >> 1]!;

/** Median time of `work`; what `after` does to be ready again does not count. */
export async function timed(
  times: number,
  work: () => Promise<unknown>,
  after: () => Promise<unknown> = async () => {},
): Promise<number> {
  const taken: number[] = [];
  for (let i = 0; i < times; i++) {
    const start = performance.now();
    await work();
    taken.push(performance.now() - start);
    await after();
  }
  return median(taken);
}

const limitOf = ({ goal, baseline }: Line): number | null => {
  if (goal === null) return null;
  if ('most' in goal) return goal.most;
  if (baseline === null) return null;
  return 'ratio' in goal ? goal.ratio * baseline : goal.over + baseline;
};

function goalText({ goal, unit }: Line): string {
  if (goal === null) return '';
  if ('most' in goal) return `≤ ${goal.most} ${unit}`;
  if ('over' in goal) return `≤ baseline + ${goal.over} ${unit}`;
  return goal.ratio < 1 ? `≥ ${Math.round(1 / goal.ratio)} × faster` : `≤ ${goal.ratio} ×`;
}

function verdict(line: Line): string {
  const limit = limitOf(line);
  if (limit === null) return '';
  return line.figure <= limit ? 'met' : 'missed';
}

const shown = (x: number): number => Number(x.toPrecision(3));

export function tableRow(line: Line): Readonly<Record<string, string | number>> {
  const { work, figure, unit, baseline, baselineName } = line;
  return {
    work,
    median: `${shown(figure)} ${unit}`,
    baseline: baseline === null ? baselineName : `${baselineName}: ${shown(baseline)} ${unit}`,
    ratio: baseline === null ? '' : shown(figure / baseline),
    goal: goalText(line),
    verdict: verdict(line),
  };
}
