import type { Line } from './line.ts';

/** A work that has nothing to be measured beside: at most so many ms. */
export const within = (work: string, figure: number, most: number): Line => ({
  work,
  figure,
  unit: 'ms',
  baseline: null,
  baselineName: '',
  goal: { most },
});
