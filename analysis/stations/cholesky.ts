/**
 * Dense solves with a symmetric positive definite matrix C = L Lᵀ (Cholesky). L is the lower triangle, row by row with
 * n elements a row, in the place of C; what stands above the diagonal is neither read nor written.
 *
 * The long loops do four things at a time on purpose: a single sum makes every addition wait for the one before, and
 * four sums over one row read that row once. Kriging spends its time here.
 */

/** Σ a[i + k] · b[j + k] over k < n. */
export function dot(a: Float64Array, i: number, b: Float64Array, j: number, n: number): number {
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  let k = 0;
  for (; k + 3 < n; k += 4) {
    s0 += a[i + k]! * b[j + k]!;
    s1 += a[i + k + 1]! * b[j + k + 1]!;
    s2 += a[i + k + 2]! * b[j + k + 2]!;
    s3 += a[i + k + 3]! * b[j + k + 3]!;
  }
  for (; k < n; k++) s0 += a[i + k]! * b[j + k]!;
  return s0 + s1 + (s2 + s3);
}

/** Elements of rows i … i + 3 of L left of column i. */
function fourRows(c: Float64Array, n: number, i: number): void {
  const r0 = i * n;
  const r1 = r0 + n;
  const r2 = r1 + n;
  const r3 = r2 + n;
  for (let j = 0; j < i; j++) {
    const row = j * n;
    let s0 = c[r0 + j]!;
    let s1 = c[r1 + j]!;
    let s2 = c[r2 + j]!;
    let s3 = c[r3 + j]!;
    for (let k = 0; k < j; k++) {
      const l = c[row + k]!;
      s0 -= l * c[r0 + k]!;
      s1 -= l * c[r1 + k]!;
      s2 -= l * c[r2 + k]!;
      s3 -= l * c[r3 + k]!;
    }
    const pivot = c[row + j]!;
    c[r0 + j] = s0 / pivot;
    c[r1 + j] = s1 / pivot;
    c[r2 + j] = s2 / pivot;
    c[r3 + j] = s3 / pivot;
  }
}

/** A pivot that is left with less than this share of its diagonal element is rounding error. */
const leastPivot = 1e-12;

/** Elements of row i of L from column `from` on, diagonal included; false where the matrix is not positive definite. */
function finishRow(c: Float64Array, n: number, i: number, from: number): boolean {
  const row = i * n;
  for (let j = from; j < i; j++) {
    c[row + j] = (c[row + j]! - dot(c, row, c, j * n, j)) / c[j * n + j]!;
  }
  const own = c[row + i]!;
  const pivot = own - dot(c, row, c, row, i);
  c[row + i] = Math.sqrt(pivot);
  return pivot > leastPivot * own;
}

/** Replaces the lower triangle of C by L. False, with L unfinished, where C is not positive definite. */
export function factorize(c: Float64Array, n: number): boolean {
  for (let i = 0; i < n; i += 4) {
    const whole = i + 4 <= n;
    if (whole) fourRows(c, n, i);
    for (let k = i; k < Math.min(i + 4, n); k++) {
      if (!finishRow(c, n, k, whole ? i : 0)) return false;
    }
  }
  return true;
}

/** Solves L x = b in the place of b, the first n elements of x; elements before `from` must be 0 and stay so. */
export function forward(l: Float64Array, n: number, x: Float64Array, from = 0): void {
  for (let i = from; i < n; i++) {
    x[i] = (x[i]! - dot(l, i * n + from, x, from, i - from)) / l[i * n + i]!;
  }
}

/** The same for four right sides that are 0 before `from`. */
function forwardFour(
  l: Float64Array,
  n: number,
  a: Float64Array,
  b: Float64Array,
  c: Float64Array,
  d: Float64Array,
  from: number,
): void {
  for (let i = from; i < n; i++) {
    const row = i * n;
    let sa = a[i]!;
    let sb = b[i]!;
    let sc = c[i]!;
    let sd = d[i]!;
    for (let k = from; k < i; k++) {
      const element = l[row + k]!;
      sa -= element * a[k]!;
      sb -= element * b[k]!;
      sc -= element * c[k]!;
      sd -= element * d[k]!;
    }
    const pivot = l[row + i]!;
    a[i] = sa / pivot;
    b[i] = sb / pivot;
    c[i] = sc / pivot;
    d[i] = sd / pivot;
  }
}

/** Solves L x = b for every one of these right sides, in its place; elements before `from` must be 0 in all. */
export function forwardAll(
  l: Float64Array,
  n: number,
  sides: readonly Float64Array[],
  from = 0,
): void {
  let q = 0;
  for (; q + 3 < sides.length; q += 4) {
    forwardFour(l, n, sides[q]!, sides[q + 1]!, sides[q + 2]!, sides[q + 3]!, from);
  }
  for (; q < sides.length; q++) forward(l, n, sides[q]!, from);
}

/** Solves Lᵀ x = b in the place of b, the first n elements of x. */
export function backward(l: Float64Array, n: number, x: Float64Array): void {
  for (let i = n - 1; i >= 0; i--) {
    const value = x[i]! / l[i * n + i]!;
    x[i] = value;
    for (let k = 0; k < i; k++) x[k] = x[k]! - l[i * n + k]! * value;
  }
}
