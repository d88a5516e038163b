/** Plain and slow counterparts of the kernels, sharing no code with them. */

/** Solves A x = b by Gaussian elimination with row exchanges; A as rows. */
export function eliminate(
  matrix: readonly (readonly number[])[],
  right: readonly number[],
): number[] {
  const a = matrix.map((row, i) => [...row, right[i]!]);
  const n = a.length;
  for (let c = 0; c < n; c++) {
    let best = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(a[r]![c]!) > Math.abs(a[best]![c]!)) best = r;
    [a[c], a[best]] = [a[best]!, a[c]!];
    for (let r = c + 1; r < n; r++) {
      const share = a[r]![c]! / a[c]![c]!;
      for (let k = c; k <= n; k++) a[r]![k]! -= share * a[c]![k]!;
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let r = n - 1; r >= 0; r--) {
    const known = x.reduce((sum, value, k) => (k > r ? sum + a[r]![k]! * value : sum), 0);
    x[r] = (a[r]![n]! - known) / a[r]![r]!;
  }
  return x;
}

/** What the bordered kriging system is made of, in units of the sill. */
export interface Dense {
  readonly z: readonly number[];
  /** Drift of each datum. */
  readonly drift: readonly (readonly number[])[];
  readonly distance: (i: number, j: number) => number;
  readonly toPlace: (i: number) => number;
  readonly placeDrift: readonly number[];
  readonly range: number;
  readonly nugget: number;
}

/**
 * The universal kriging system as textbooks print it, with Lagrange multipliers μ (Cressie, Statistics for Spatial Data,
 * 1993, section 3.4, from memory): [C F; Fᵀ 0] [w; μ] = [c; f], variance 1 + τ² − wᵀc − μᵀf.
 */
export function denseKriging(of: Dense): { estimate: number; variance: number; weights: number[] } {
  const n = of.z.length;
  const p = of.placeDrift.length;
  const covariance = (h: number) => Math.exp(-h / of.range);
  const top = of.z.map((_, i) => [
    ...of.z.map((_, j) => (i === j ? 1 + of.nugget : covariance(of.distance(i, j)))),
    ...of.drift[i]!,
  ]);
  const bottom = of.placeDrift.map((_, k) => [
    ...of.drift.map((f) => f[k]!),
    ...new Array<number>(p).fill(0),
  ]);
  const right = [...of.z.map((_, i) => covariance(of.toPlace(i))), ...of.placeDrift];
  const solution = eliminate([...top, ...bottom], right);
  const dotted = solution.reduce((sum, w, k) => sum + w * right[k]!, 0);
  const weights = solution.slice(0, n);
  return {
    estimate: weights.reduce((sum, w, i) => sum + w * of.z[i]!, 0),
    variance: 1 + of.nugget - dotted,
    weights,
  };
}
