import type { ByteSource, Remark } from './read/outcome.ts';
import type { SettingsChanges } from './settings.ts';
import type { CheckRow } from './stations/check.ts';
import type { DrivingRain } from './weather/record.ts';

/** What the user gives: two CSV files, and a rain grid of their own if they have one. */
export interface Inputs {
  readonly buildings: ByteSource;
  readonly walls?: ByteSource;
  readonly rain?: ByteSource;
  /** Station normals, to adjust the grid by; the built-in 70 US cities where absent. */
  readonly stations?: ByteSource;
  /** An hourly weather record: its κ and U for the whole portfolio. */
  readonly weather?: ByteSource;
  /** True for the invented scenario that opens by itself. */
  readonly demo?: boolean;
}

export type Role = 'buildings' | 'walls' | 'rain' | 'stations' | 'weather';

/** What was read from one file. */
export interface FileReport {
  readonly file: string;
  readonly role: Role;
  readonly rowsRead: number;
  readonly accepted: number;
  readonly setAside: readonly Remark[];
  readonly noted: readonly Remark[];
  readonly unknownColumns: readonly string[];
}

export interface ReadReport {
  readonly demo: boolean;
  readonly files: readonly FileReport[];
}

export const tiers = ['First look', 'Next look', 'Keep watch', 'No flag', 'Not scored'] as const;
export type Tier = (typeof tiers)[number];

/**
 * What the map and the filters need of every building, as typed arrays indexed by building ordinal `b`
 * (0 … n − 1, in order of building_id). Texts are fetched row by row (`rows`).
 */
export interface Frame {
  readonly n: number;
  readonly longitude: Float64Array;
  readonly latitude: Float64Array;
  /** Index into `tiers`. */
  readonly tier: Uint8Array;
  /** 0-100, NaN where not scored. */
  readonly index: Float64Array;
  readonly counts: {
    readonly tier: Readonly<Record<Tier, number>>;
    /** The same with every prior leaning low, and leaning high. */
    readonly tierLow: Readonly<Record<Tier, number>>;
    readonly tierHigh: Readonly<Record<Tier, number>>;
    /** Distinct regions and materials of the ranking with their building counts, most frequent first. */
    readonly region: readonly Counted[];
    readonly material: readonly Counted[];
  };
  /** Greatest wetting of a ranked wall, L/m² yr: the common scale of the strips. */
  readonly wettingMax: number;
}

export interface Counted {
  readonly value: string | null;
  readonly n: number;
}

/** How the ranking is ordered when no column is asked for. */
export const rankings = ['index', 'wetting', 'high', 'value_at_tier'] as const;
export type RankBy = (typeof rankings)[number];

/** The rows wanted, and their order. An absent filter lets everything through; within one filter, any value matches. */
export interface RankQuery {
  readonly by: RankBy;
  /** Sort by this output column instead of the ranking. */
  readonly sort?: { readonly column: string; readonly descending: boolean };
  readonly tier?: readonly Tier[];
  readonly region?: readonly (string | null)[];
  readonly material?: readonly (string | null)[];
  /** Height of the building, m: from (inclusive) and below (exclusive); either may be open. */
  readonly height?: { readonly from?: number; readonly below?: number };
  /** Looked for in id, name, address and city, ignoring case and accents. */
  readonly search?: string;
}

/** The derivation of a number: *ledger* of product.md. */
export interface LedgerNode {
  readonly label: string;
  /** The value itself; null is no record. */
  readonly value: number | string | null;
  readonly unit?: string;
  /** Formula as the method writes it, in terms of the labels of `inputs`. */
  readonly formula?: string;
  readonly inputs?: readonly LedgerNode[];
  /** Weight of this value among its siblings, where the parent is a mean or a weighted sum over them. */
  readonly share?: number;
  /** The value is rounded to this step; absent where it is not rounded. */
  readonly step?: number;
  /** Where a leaf comes from: file and row, table of data/ with its source, grid node. */
  readonly source?: string;
  /** A sentence to read beside the value: a flag, a fallback, a caution. */
  readonly note?: string;
}

export type ExportFormat = 'csv' | 'json' | 'geojson';

/** One building opened: its ranking row, its own record, and its walls with every step of the method. */
export interface BuildingDetail {
  readonly b: number;
  /** Output columns of the ranking, by name (`output.ts`). */
  readonly row: Readonly<Record<string, number | string | null>>;
  /** The accepted input row, contract columns and the user's own. */
  readonly record: Readonly<Record<string, number | string | null>>;
  /**
   * One row a wall, worst first: `wall` (ordinal, for the ledger), wall_id, kind (recorded, remainder, assumed,
   * superseded), azimuth_deg, material, area_m2, installed, drainage, gap_mm, sheathing, wetting_l_m2, w, d, s,
   * drainage_state, need_code_then, need_code_now, need_practice, gap_asked_mm, index, index_low, index_high,
   * unknowns, row (input row, null where assumed).
   */
  readonly walls: readonly Readonly<Record<string, number | string | null>>[];
  /** What each edition asks of the wall that sets the index, oldest first. */
  readonly timeline: readonly EditionAnswer[];
}

/** One edition of a code on the timeline of a wall. */
export interface EditionAnswer {
  readonly code: string;
  /** e.g. `IBC 2021`, `other US model codes to 1999`. */
  readonly label: string;
  /** First and last year of the edition; the same year but for the legacy codes. */
  readonly from: number;
  readonly to: number;
  /** `asks: <rule id>`, `does not ask`, `cannot tell: <fact>`. */
  readonly answer: string;
  /** What the rule asks for, in words; null where it does not ask. */
  readonly asks: string | null;
  /** May have been in force when the wall was built. */
  readonly stoodThen: boolean;
  /** Answers for today. */
  readonly standsNow: boolean;
}

/** What knowing one fact would settle, over the portfolio. */
export interface FactValue {
  /** Input column: drainage, sheathing, … */
  readonly fact: string;
  readonly label: string;
  /** Buildings whose ranking wall lacks it. */
  readonly buildings: number;
  /** Mean share of the index's variance that knowing it would take away, over these buildings, 0-1. */
  readonly share: number;
  /** Buildings that would then lie in one tier from low to high and do not now (an estimate). */
  readonly settles: number;
}

/** Records worth chasing. */
export interface Chase {
  /** Buildings scored, and those whose low and high already lie in one tier. */
  readonly scored: number;
  readonly settled: number;
  /** Most settling first. */
  readonly facts: readonly FactValue[];
  /** The three facts that together settle most places, in the order in which to ask, with the running total settled. */
  readonly questions: readonly {
    readonly fact: string;
    readonly label: string;
    readonly question: string;
    readonly settled: number;
  }[];
}

/** Area of the scored walls whose own index lies in a tier. */
export interface TierArea {
  readonly tier: Tier;
  readonly walls: number;
  /** m², of the walls whose area is known. */
  readonly areaM2: number;
  /** Walls whose area is not on record: not in the sum. */
  readonly unknownArea: number;
}

/** How far a change of settings moved the ranking. */
export interface Effect {
  /** Of the first 20 before, how many are no longer among the first 20. */
  readonly firstTwenty: number;
  /** Buildings whose tier changed. */
  readonly tier: number;
}

export interface RainReport {
  readonly source: string;
  readonly period: string;
  /** Whether the stations adjust the grid in this run; else why not, in a sentence. */
  readonly adjusted: boolean;
  readonly sentence: string;
  readonly stations: number;
  /** Chosen parameters by name, for the Method view: range_km, nugget_ratio, sill, lambda, rho, period_shift, … */
  readonly parameters: Readonly<Record<string, number>>;
  readonly checks: readonly CheckRow[];
}

/** Everything a view may ask of the analysis; the page reaches it through a worker, the command line directly. */
export interface Analyst {
  /** Reads files, places buildings, samples rain, scores. Rejects with a `Refusal` and keeps what was there. */
  open(inputs: Inputs): Promise<ReadReport>;
  frame(): Promise<Frame>;
  /** Scores again what is open under other settings (only the differences from what ships), and tells the effect. */
  rescore(changes: SettingsChanges): Promise<Effect>;
  /** The settings in use, as differences from what ships. */
  settings(): Promise<SettingsChanges>;
  chase(): Promise<Chase>;
  /** Wall area by tier, for the user's own budget. */
  wallAreas(): Promise<TierArea[]>;
  rainReport(): Promise<RainReport>;
  /** The weather record in use; null without one. */
  weather(): Promise<DrivingRain | null>;
  /** Building ordinals that match, in order. */
  order(query: RankQuery): Promise<Int32Array>;
  /**
   * The output columns of these buildings, in the given order, with four more that the row's strip draws:
   * adequacy (0-1, what drains), susceptibility (0-1), sheathing, gap_asked_mm, all of the wall that sets the index.
   */
  rows(ordinals: Int32Array): Promise<Readonly<Record<string, number | string | null>>[]>;
  building(b: number): Promise<BuildingDetail>;
  /** Derivation of one output column of a building, or of one column of one of its walls. */
  ledger(b: number, column: string, wall?: number): Promise<LedgerNode>;
  /** The ranking as a file's text, and the text of its `.about.json`. */
  write(
    format: ExportFormat,
    units: 'metric' | 'american',
  ): Promise<{ text: string; about: string }>;
  /** Rain shading for the map: the grid in use as rows north to south, mm, NaN for no data. */
  rainSheet(): Promise<RainSheet>;
}

export interface RainSheet {
  readonly width: number;
  readonly height: number;
  /** Longitude and latitude of the first node (north-west) and the step to the next, degrees (latitude step negative). */
  readonly west: number;
  readonly north: number;
  readonly stepX: number;
  readonly stepY: number;
  readonly mm: Float32Array;
  readonly source: string;
  readonly period: string;
}
