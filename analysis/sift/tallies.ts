import { eraBands } from '../bands.ts';
import type { Category } from './held.ts';
import type { Mask } from './mask.ts';
import { type BarsCells, type BarsTally, bars, barsCells } from './tally-bars.ts';
import { type Edges, edgesOf, largest, roundEdges } from './tally-bins.ts';
import { sum } from './tally-codes.ts';
import { type DensityCells, type DensityTally, density, densityCells } from './tally-density.ts';
import {
  type HistogramCells,
  type HistogramTally,
  histogram,
  histogramCells,
} from './tally-histogram.ts';
import { type MatrixCells, type MatrixTally, matrix, matrixCells } from './tally-matrix.ts';

/** The columns that the linked views count beside the density's, by ordinal. Numbers: NaN no record. */
export interface ViewColumns {
  readonly tier: Category;
  readonly index: Float64Array;
  /** Year in which the ranking wall was installed, as far as known. */
  readonly installed_used: Float64Array;
  readonly material: Category;
  readonly region: Category;
}

/** The columns that each linked view sets conditions on: it is filtered by all conditions but those. */
export const ownColumns = {
  histogram: ['index'],
  density: ['wetting_l_m2', 'adequacy'],
  matrix: ['installed_used', 'material'],
  bars: ['region', 'tier'],
} as const;
export type ViewName = keyof typeof ownColumns;

/** What each view is filtered by, and the whole filter. Null: every building passes. */
export type ViewMasks = Readonly<Record<ViewName | 'all', Mask | null>>;

/** Counts for the linked views. */
export interface ViewsAnswer {
  /** Buildings of the portfolio, and those that pass all conditions. */
  readonly n: number;
  readonly shown: number;
  readonly histogram: HistogramTally;
  readonly density: DensityTally;
  readonly matrix: MatrixTally;
  readonly bars: BarsTally;
}

/** The cell of every building in each view: made once a scoring, about 2 bytes a building and view. */
export interface ViewCells {
  readonly n: number;
  readonly histogram: HistogramCells;
  readonly density: DensityCells;
  readonly matrix: MatrixCells;
  readonly bars: BarsCells;
}

/** Below this many buildings, narrower bins of the index would be mostly empty. */
const FEW = 5_000;
/** Cells of the density, across and up, at most; buildings drawn one by one, at most. */
const ACROSS = 48;
const UP = 20;
const POINTS = 1_500;

/**
 * @param wetting_l_m2 by ordinal, NaN no record
 * @param adequacy share of the drainage asked for that is there, 0-1; the view draws what is lacking, 1 − adequacy
 */
export function wettingByNeed(wetting_l_m2: Float64Array, adequacy: Float64Array): DensityCells {
  const edges = { x: roundEdges(largest(wetting_l_m2), ACROSS), y: edgesOf(0, 1 / UP, UP) };
  return densityCells({ x: wetting_l_m2, y: adequacy, edges });
}

export function viewCells(columns: ViewColumns, density: DensityCells): ViewCells {
  const { index, installed_used, material, region } = columns;
  const tier = columns.tier.codes;
  return {
    n: index.length,
    histogram: histogramCells(index, indexEdges(index.length), tier),
    density,
    matrix: matrixCells(installed_used, eraBands, material, tier),
    bars: barsCells(region, tier),
  };
}

/** Counts for all four views, each under its own mask. The arrays of an answer may be shared: clone, don't transfer. */
export function tallyViews(cells: ViewCells, masks: ViewMasks): ViewsAnswer {
  return {
    n: cells.n,
    shown: masks.all ? sum(masks.all) : cells.n,
    histogram: histogram(cells.histogram, masks.histogram),
    density: density(cells.density, masks.density, POINTS),
    matrix: matrix(cells.matrix, masks.matrix),
    bars: bars(cells.bars, masks.bars),
  };
}

const indexEdges = (n: number): Edges => (n < FEW ? edgesOf(0, 5, 20) : edgesOf(0, 2.5, 40));
