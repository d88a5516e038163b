import { dot, factorize, forward, forwardAll } from './cholesky.ts';
import { keptCorrelations, type Shape } from './correlation.ts';
import { krigeFrom, wholeSystem } from './krige.ts';
import { type Field, newSystem, type Places, type System } from './system.ts';

/** Errors at data that were left out with their whole group, foretold from the others. NaN where nothing is left. */
export interface LeftOut {
  /** Which data, m. */
  readonly ids: Int32Array;
  /** Datum − estimate, m. */
  readonly error: Float64Array;
  /** Variance of that error in units of the sill, m. */
  readonly variance: Float64Array;
  /** Sill σ²: sum of squares of the generalised least squares residual over its degrees of freedom. */
  readonly sill: number;
}

/** How data are left out: group of every datum; data of one group are left out together. */
export type Groups = Int32Array;

/** Every datum a group of its own. */
export const oneByOne = (n: number): Groups => Int32Array.from({ length: n }, (_, i) => i);

/** A datum of which the others' drift explains all but this share would be foretold by a drift without a slope: it is not. */
const leastShare = 1e-10;

const nothingYet = (ids: Int32Array, sill: number): LeftOut => ({
  ids,
  error: new Float64Array(ids.length).fill(Number.NaN),
  variance: new Float64Array(ids.length).fill(Number.NaN),
  sill,
});

/** Columns of L⁻¹, one array of n each; column i begins with i zeros. */
function inverseColumns({ factor, m }: System): Float64Array[] {
  const columns = Array.from({ length: m }, (_, i) => {
    const column = new Float64Array(m);
    column[i] = 1;
    return column;
  });
  for (let i = 0; i < m; i += 4) forwardAll(factor, m, columns.slice(i, i + 4), i);
  return columns;
}

/** What the drift takes of every column of L⁻¹: L_A⁻¹ (L⁻¹F)ᵀ column, p each. */
const driftParts = ({ drift, normal, m }: System, columns: readonly Float64Array[]) =>
  columns.map((column) => {
    const part = Float64Array.from(drift, (f) => dot(f, 0, column, 0, m));
    forward(normal, drift.length, part);
    return part;
  });

/** Members of every group. */
function membersOf(groups: Groups): number[][] {
  const members = new Map<number, number[]>();
  groups.forEach((group, i) => {
    const list = members.get(group);
    if (list) list.push(i);
    else members.set(group, [i]);
  });
  return [...members.values()];
}

/** The block of Q = C⁻¹ − C⁻¹F (FᵀC⁻¹F)⁻¹ FᵀC⁻¹ that belongs to these data: lower triangle, row by row. */
function blockOf(
  members: readonly number[],
  columns: readonly Float64Array[],
  parts: readonly Float64Array[],
): Float64Array {
  const b = members.length;
  const block = new Float64Array(b * b);
  members.forEach((i, row) => {
    for (let k = 0; k <= row; k++) {
      const j = members[k]!;
      const from = Math.max(i, j);
      const length = columns[i]!.length - from;
      const all = dot(columns[i]!, from, columns[j]!, from, length);
      const rest = all - dot(parts[i]!, 0, parts[j]!, 0, parts[i]!.length);
      block[row * b + k] = i === j && rest < leastShare * all ? 0 : rest;
    }
  });
  return block;
}

/** Errors of one group into `out`: Q_BB⁻¹ (Q z)_B, with variances the diagonal of Q_BB⁻¹. */
function leaveBlock(
  members: readonly number[],
  block: Float64Array,
  rest: Float64Array,
  out: LeftOut,
): void {
  const b = members.length;
  if (!factorize(block, b)) return;
  const right = Float64Array.from(members, (i) => rest[i]!);
  forward(block, b, right);
  members.forEach((i, k) => {
    const column = new Float64Array(b);
    column[k] = 1;
    forward(block, b, column, k);
    out.error[i] = dot(column, k, right, k, b - k);
    out.variance[i] = dot(column, k, column, k, b - k);
  });
}

/**
 * Leaves out every group in turn where all data are kriged together, from one factorisation (Dubrule, Cross validation
 * of kriging in a unique neighborhood, Mathematical Geology 15, 1983; the same in blocks for groups).
 */
export function leaveOutGlobal(field: Field, shape: Shape, groups: Groups): LeftOut {
  const system = wholeSystem(field, shape);
  const { residual, m: n, drift } = system;
  const p = drift.length;
  const columns = inverseColumns(system);
  const parts = driftParts(system, columns);
  const rest = Float64Array.from(columns, (column) => dot(column, 0, residual, 0, n));
  const out = nothingYet(oneByOne(n), dot(residual, 0, residual, 0, n) / (n - p));
  for (const members of membersOf(groups)) {
    if (n - members.length < p) continue;
    leaveBlock(members, blockOf(members, columns, parts), rest, out);
  }
  return out;
}

/** Fills `ids` with the data nearest to datum i that are not of its group, and returns how many there are. */
export type NeighboursOutside = (i: number, groups: Groups, ids: Int32Array) => number;

/**
 * The same where every place is kriged from its own neighbours, for the data `which`: the neighbours are looked for
 * among the data outside the group. The sill is the residuals of all these neighbourhoods pooled.
 */
export function leaveOutLocal(
  field: Field,
  shape: Shape,
  groups: Groups,
  which: Int32Array,
  neighbours: NeighboursOutside,
  most: number,
): LeftOut {
  const p = field.drift.length;
  const system = newSystem(most, p);
  const correlation = keptCorrelations(field.between, shape, field.z.length);
  const places: Places = { n: field.z.length, drift: field.drift, distance: field.between };
  const found = nothingYet(which, Number.NaN);
  let squares = 0;
  let freedom = 0;
  which.forEach((i, k) => {
    const m = neighbours(i, groups, system.ids);
    if (m < p) return;
    krigeFrom(system, m, field, correlation, shape, places, i);
    squares += dot(system.residual, 0, system.residual, 0, m);
    freedom += m - p;
    found.error[k] = field.z[i]! - system.estimate;
    found.variance[k] = system.variance;
  });
  return { ...found, sill: squares / freedom };
}
