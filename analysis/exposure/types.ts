import type { Category } from '../sift/held.ts';
import type { Clusters } from './clusters.ts';
import type { Curve } from './curve.ts';
import type { Pivot } from './pivot.ts';
import type { Referral, ReferralRequest } from './referral.ts';
import type { SumTable } from './sums.ts';

/**
 * What exposure is counted from: columns of the ranking by building ordinal 0 … n − 1. NaN and code −1 are *no record*.
 * One line is one row of the ranking; it may stand for several buildings.
 */
export interface ExposureColumns {
  readonly n: number;
  /** Place in `tiers`, as scored and with all priors leaning low and high; 4 is *Not scored*. */
  readonly tier: Uint8Array;
  readonly tierLow: Uint8Array;
  readonly tierHigh: Uint8Array;
  /** 0-100, two decimals. */
  readonly index: Float64Array;
  readonly indexLow: Float64Array;
  readonly indexHigh: Float64Array;
  readonly region: Category;
  readonly currency: Category;
  readonly placeSource: Category;
  /** Of the wall that sets the index. */
  readonly material: Category;
  /** m. */
  readonly heightM: Float64Array;
  /** Year in which the cladding of that wall was put up. */
  readonly installed: Float64Array;
  /** Area of the scored walls, m². */
  readonly wallAreaM2: Float64Array;
  /** Σ index/100 × area, m². */
  readonly weightedAreaM2: Float64Array;
  /** Of the whole line, in its currency. */
  readonly insuredValue: Float64Array;
  readonly buildingCount: Float64Array;
  /** Degrees, WGS 84. */
  readonly longitude: Float64Array;
  readonly latitude: Float64Array;
}

/** What totals may be divided by. */
export const dimensions = ['tier', 'region', 'height', 'era', 'material', 'currency'] as const;
export type Dimension = (typeof dimensions)[number];

export interface ExposureRequest {
  /** What divides the rows of the pivot, and its columns; an empty list leaves one row or column. */
  readonly rows: readonly Dimension[];
  readonly columns: readonly Dimension[];
  /** Currency of the values in pivot, curve, clusters and referrals; null: no currency on record. Absent: the one of most lines. */
  readonly currency?: string | null;
  /** Radius of the clusters, km, 0.5-50. */
  readonly radiusKm: number;
  readonly referral: ReferralRequest;
  /** Also the full crossing of these, for a file; each line in exactly one cell, values in their own currency. */
  readonly crossing?: readonly Dimension[];
}

/** Totals of one currency: its lines are those whose value is written in it. Null: no currency on record. */
export interface CurrencyTotals {
  /** Most lines first. */
  readonly currencies: readonly (string | null)[];
  readonly sums: SumTable;
}

/** The answer: plain objects and typed arrays, ready to cross a thread. */
export interface ExposureView {
  /** Lines that pass the filters. */
  readonly lines: number;
  /** Lines by tier, in the order of `tiers`; they sum to `lines`. */
  readonly byTier: readonly number[];
  /** Currency of the values below. */
  readonly currency: string | null;
  readonly totals: CurrencyTotals;
  /** Words of the dimensions that come from the records, by code. */
  readonly words: Readonly<Record<'region' | 'material' | 'currency', readonly string[]>>;
  readonly pivot: Pivot;
  readonly curve: Curve;
  readonly clusters: Clusters;
  readonly referral: Referral;
  readonly crossing?: Crossing;
}

/** Every combination that occurs, in the order of its levels, with its sums. */
export interface Crossing {
  readonly dimensions: readonly Dimension[];
  /** Level of each cell by dimension; −1 is no record. */
  readonly levels: readonly Int32Array[];
  readonly sums: SumTable;
}
