/** A unit that was opened and showed its sheathing. */
export interface Answer {
  /** Identifies the unit: replicated draws may select one more than once. */
  readonly unit: string;
  readonly stratum: string;
  /** The building: walls of one building are a cluster. */
  readonly cluster: string;
  /** Chance with which it was to be selected, above 0. */
  readonly probability: number;
  /** Selected whatever the draw. */
  readonly certainty: boolean;
  /** The independent draw it came from; null in designs that draw once. */
  readonly replicate: number | null;
  /** Where it stands in the space over which a balanced sample is spread; empty elsewhere. */
  readonly place: readonly number[];
  /** Area of the wall, m²; NaN where not on record. */
  readonly areaM2: number;
  /** Whether the sheathing was softened or decayed. */
  readonly softened: boolean;
}

/** What all selected units of a stratum that were drawn alike come to, answered or not. */
export interface Selected {
  readonly stratum: string;
  readonly certainty: boolean;
  /** Units of the frame that it speaks for: all certain ones, or all others of the stratum. */
  readonly size: number;
  /** Selected units, without replacements. */
  readonly selected: number;
  /** Σ 1/probability over them. */
  readonly expansion: number;
}
