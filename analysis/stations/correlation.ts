/** Range r in the unit of the distances, nugget τ² as a share of the sill. */
export interface Shape {
  readonly range: number;
  readonly nugget: number;
}

/** Of two data by their ids: a distance or a correlation. */
export type Pairwise = (i: number, j: number) => number;

/** exp(−h/r). The exponential model is positive definite on the plane and on the sphere, which most others are not. */
export const correlationAt = (h: number, { range }: Shape): number => Math.exp(-h / range);

/** Data whose correlations are kept at a time: 512 kB, so that they stay close to the processor. */
const kept = 256;

/**
 * Correlations of data, each computed once while its two data stay in hand: places that follow one another share most of
 * their neighbours. When more data come by than are kept, all are let go. What is returned does not depend on that.
 */
export function keptCorrelations(between: Pairwise, shape: Shape, n: number): Pairwise {
  const slot = new Int32Array(n).fill(-1);
  const held = new Int32Array(kept);
  const memory = new Float64Array(kept * kept).fill(Number.NaN);
  let used = 0;
  function letGo(): void {
    for (const id of held) slot[id] = -1;
    memory.fill(Number.NaN);
    used = 0;
  }
  function takeIn(id: number): void {
    if (used === kept) letGo();
    held[used] = id;
    slot[id] = used;
    used += 1;
  }
  return (i, j) => {
    if (slot[i]! < 0) takeIn(i);
    if (slot[j]! < 0) takeIn(j);
    // Taking j in may have let i go.
    if (slot[i]! < 0) takeIn(i);
    const a = slot[i]!;
    const b = slot[j]!;
    const at = a > b ? a * kept + b : b * kept + a;
    const known = memory[at]!;
    if (!Number.isNaN(known)) return known;
    const value = correlationAt(between(i, j), shape);
    memory[at] = value;
    return value;
  };
}
