/** How units come to be chosen. */
export type Design = 'simple' | 'stratified' | 'pps' | 'replicated' | 'balanced';

/** What is opened: a wall, or a building by its wettest wall. */
export type SampleUnit = 'wall' | 'building';

/** What strata can be made of. */
export type StratumField = 'tier' | 'material' | 'era' | 'orientation' | 'height';

/**
 * The units among which a sample is drawn, as columns of length n in any order: the id alone decides what a seed draws.
 * A missing number is NaN, a missing text null.
 */
export interface Population {
  readonly unit: SampleUnit;
  readonly n: number;
  /** Unique in the population. */
  readonly id: readonly string[];
  /** The building: walls of one building are a cluster. */
  readonly cluster: readonly string[];
  readonly tier: readonly (string | null)[];
  readonly material: readonly (string | null)[];
  /** Year in which the cladding was installed. */
  readonly installed: Float64Array;
  /** Direction the wall faces, degrees. */
  readonly azimuthDeg: Float64Array;
  readonly heightM: Float64Array;
  /** Degrees, WGS 84. */
  readonly latitude: Float64Array;
  readonly longitude: Float64Array;
  readonly areaM2: Float64Array;
  /** Wind-driven rain, L/m² a year. */
  readonly wetting: Float64Array;
  /** 0-100. */
  readonly index: Float64Array;
}

/** One row of the plan: a unit to open, or a replacement for one. */
export interface SelectedUnit {
  /** Ordinal in the population as it was given. */
  readonly unit: number;
  readonly id: string;
  readonly cluster: string;
  readonly stratum: string;
  /**
   * Chance with which the draw selects it; for replicated draws, with which one replicate does. NaN where it has none of its
   * own: replacements, and selections that keep a minimum distance.
   */
  readonly probability: number;
  /** Units of the frame that it speaks for; 1/probability, for replicated draws also divided by their number. Else NaN. */
  readonly weight: number;
  /** Selected whatever the draw: must be included, or probability 1. */
  readonly certainty: boolean;
  /** The independent draw it came from, from 1; null in designs that draw once and for certain units. */
  readonly replicate: number | null;
  /** Null for the units selected; replacements of a stratum are taken in this order, from 1. */
  readonly replacementOrder: number | null;
  /** m², NaN where not on record. */
  readonly areaM2: number;
  /** Where it stands in the space over which a balanced sample is spread; empty in other designs. */
  readonly place: readonly number[];
}

/** A stratum of the frame. */
export interface StratumRow {
  readonly stratum: string;
  readonly units: number;
  readonly buildings: number;
  /** Of the units with an area on record, m². */
  readonly areaM2: number;
  readonly areaUnknown: number;
  /** Of the units with an index; NaN without any. */
  readonly meanIndex: number;
}

/** What came of a request that the user's input can spoil: a result with remarks, or the reasons why there is none. */
export type Outcome<T> =
  | ({ readonly ok: true; readonly says: readonly string[] } & T)
  | { readonly ok: false; readonly says: readonly string[] };

export const refused = (...says: string[]): { ok: false; says: string[] } => ({ ok: false, says });

/** `3 walls`, `1 building`. */
export const counted = (n: number, unit: string): string =>
  `${n.toLocaleString('en-US')} ${unit}${n === 1 ? '' : 's'}`;
