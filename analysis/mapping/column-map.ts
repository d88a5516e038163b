/** What a sheet holds: one row a building, one row a wall, or both side by side. */
export const sheetShapes = ['buildings', 'walls', 'wall rows', 'wall columns'] as const;
/**
 * `buildings` and `walls` are plain tables of the contract. `wall rows`: one row a wall, the building's columns
 * repeated. `wall columns`: one row a building, its walls side by side in groups of columns (north_material, north_area …).
 */
export type SheetShape = (typeof sheetShapes)[number];

/** How one column of the user's file is read. */
export interface MappedColumn {
  /** The heading as written, trimmed; may be blank. */
  readonly heading: string;
  /** Table and column of the contract it fills; null: kept as it is. */
  readonly fills: { readonly table: 'building' | 'wall'; readonly column: string } | null;
  /** Unit in which the file gives it (a `unit` of data/heading_units.csv); null: the contract's own, or none. */
  readonly unit: string | null;
  /**
   * In `wall columns` sheets: the wall this column describes (`north`, `stucco`, `1`); null there for a column of the
   * wall table: all walls of the record that have no such column of their own. Null in other sheets.
   */
  readonly wall: string | null;
}

/** The walls of a `wall columns` sheet: what a group's name itself says of its wall, as contract text. */
export interface WallGroup {
  readonly wall: string;
  /** e.g. { azimuth_deg: 'N' } for north_material, { material: 'stucco' } for stucco_area. */
  readonly says: Readonly<Record<string, string>>;
}

/** How a file with these headings is read: guessed, changed by hand, saved, and used again for files alike. */
export interface ColumnMap {
  readonly shape: SheetShape;
  /** One for each heading of the file, in the order of the file. */
  readonly columns: readonly MappedColumn[];
  /** Only in `wall columns` sheets. */
  readonly groups: readonly WallGroup[];
  /** The user's own words for values, by contract column: { material: { 'synth. stucco': 'eifs' } }. A null value: no record. */
  readonly words: Readonly<Record<string, Readonly<Record<string, string | null>>>>;
}

/** What a guess rests on, for each column of the map. */
export interface Guess {
  /** 0 to 1; 1 is the contract's own heading. Judgement: ranks doubts, is no probability. */
  readonly confidence: number;
  /** A short sentence: `by its name`, `values lie between 24.5 and 49.0, as latitudes do`. */
  readonly why: string;
}

/** A value of a vocabulary column that no synonym matches, to be mapped once by hand. */
export interface UnmatchedValue {
  readonly column: string;
  readonly value: string;
  /** Rows of the sample that hold it. */
  readonly rows: number;
  /** Contract words that parts of it read as, in their order: `Stucco / Brick` holds two. Offered, never decided. */
  readonly meanings: readonly string[];
}

export interface GuessedMap {
  readonly map: ColumnMap;
  /** In the order of `map.columns`. */
  readonly guesses: readonly Guess[];
  /** Contract columns without which the sheet cannot be read and that nothing fills; a sentence each. */
  readonly missing: readonly string[];
  readonly unmatched: readonly UnmatchedValue[];
}

/** The first rows of a file, as cells. */
export interface SheetSample {
  readonly file: string;
  readonly headings: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** Whether a comma stands before decimals. */
  readonly decimalComma: boolean;
}
