import type { Columns } from './columns.ts';
import type { ExposureRequest, ExposureView } from './exposure/types.ts';
import type { InferenceOptions } from './findings/infer.ts';
import type { Inference } from './findings/inference.ts';
import type { ColumnMap, GuessedMap, SheetSample } from './mapping/column-map.ts';
import type { Bounds } from './place/bounds.ts';
import type { ByteSource, Remark } from './read/outcome.ts';
import type { CellEdit } from './read/row.ts';
import type { PlanHead, SamplingPlan } from './sample/plan.ts';
import type { SelectionRequest } from './sample/request.ts';
import type { Outcome as SampleOutcome, StratumField } from './sample/types.ts';
import type { SettingsChanges } from './settings.ts';
import type { Facet } from './sift/facet.ts';
import type { ViewsAnswer } from './sift/tallies.ts';
import type { CheckRow } from './stations/check.ts';
import type { DrawnPlan, StrataView } from './survey/draw.ts';
import type { FindingsView } from './survey/findings.ts';
import type { Learnt } from './survey/learn.ts';
import type { PopulationQuery } from './survey/walls.ts';
import type { DrivingRain } from './weather/record.ts';

/** What the user gives: tables, grids and records, how their columns are read, and corrections to their cells. */
export interface Inputs {
  readonly buildings: ByteSource;
  /** Cladding records, any number of files. No two files of the inputs share a name. */
  readonly walls?: readonly ByteSource[];
  readonly rain?: ByteSource;
  /** All-hours mean wind, for the driving-rain index. */
  readonly wind?: ByteSource;
  /** Mean temperature of the year, for buildings whose record has none. */
  readonly temperature?: ByteSource;
  /** Station normals, to adjust the grid by; the built-in 70 US cities where absent. */
  readonly stations?: ByteSource;
  /** An hourly weather record: its κ and U for the whole portfolio. */
  readonly weather?: ByteSource;
  /** How each table is read, by file name; else as a file with the same headings was; else guessed. */
  readonly sheets?: Readonly<Record<string, SheetReading>>;
  /** Maps kept from earlier files. */
  readonly maps?: readonly ColumnMap[];
  readonly edits?: readonly Edit[];
  /** Settings to score with, as differences from what ships; those in use where absent. */
  readonly settings?: SettingsChanges;
  /** True for the invented scenario that opens by itself. */
  readonly demo?: boolean;
}

/** How a table file is read. */
export interface SheetReading {
  /** Absent: guessed. */
  readonly map?: ColumnMap;
  /** Sheet of a workbook; its first where absent. */
  readonly sheet?: string;
}

/** A cell that the user corrects, without touching the file. */
export interface Edit extends CellEdit {
  readonly file: string;
  readonly table: 'building' | 'wall';
  readonly row: number;
}

export type Role =
  | 'buildings'
  | 'walls'
  | 'rain'
  | 'wind'
  | 'temperature'
  | 'stations'
  | 'weather'
  | 'findings';

/** What was read from one file. `rowsRead = accepted + setAside + joined`. */
export interface FileReport {
  readonly file: string;
  readonly role: Role;
  /** Rows below the headings that are not blank; fewer than `rowsRead` where a row describes several walls. */
  readonly records: number;
  readonly rowsRead: number;
  readonly accepted: number;
  /** Rows of a building already read. */
  readonly joined: number;
  readonly setAside: number;
  readonly noted: number;
  readonly unknownColumns: readonly string[];
  /** How its columns were read; null for grids, stations and weather. */
  readonly map: ColumnMap | null;
  /** What is to be said of the file as a whole. */
  readonly notes: readonly string[];
}

export interface ReadReport {
  readonly demo: boolean;
  readonly files: readonly FileReport[];
}

export type Outcome = 'row set aside' | 'row kept';

/** A remark, and what became of the row. `table` is null for files without a table that can be edited. */
export interface MarkedRemark extends Remark {
  readonly outcome: Outcome;
  readonly table: 'building' | 'wall' | null;
}

export interface RemarkQuery {
  readonly outcome?: Outcome;
  /** Looked for in file, row, column, value and sentence, ignoring case. */
  readonly words?: string;
  readonly from: number;
  readonly count: number;
}

/** Corrections of one kind that are offered, all at once. */
export interface OfferedMend {
  readonly says: string;
  readonly edits: readonly Edit[];
}

/** One record of a table file as it stands, with the user's corrections in place. */
export interface RecordView {
  readonly file: string;
  readonly row: number;
  /** One for each column of the table that the file has or that can be given. */
  readonly cells: readonly {
    readonly column: string;
    /** As the file writes it; null where the file has no such column. */
    readonly heading: string | null;
    readonly value: string;
    readonly edited: boolean;
  }[];
}

/** What a file would be read as, before anything is committed. */
export interface Preview {
  readonly file: string;
  /** Sheets of a workbook; empty for other formats. */
  readonly sheets: readonly string[];
  readonly sample: SheetSample;
  readonly guessed: GuessedMap;
  /** Where the map comes from. */
  readonly from: 'given' | 'kept' | 'guessed';
  /** What the table needs and the map does not fill, in words; null where it has all. */
  readonly missing: string | null;
  /** First rows in canonical form. */
  readonly rows: {
    readonly building: readonly Readonly<Record<string, number | string | null>>[];
    readonly wall: readonly Readonly<Record<string, number | string | null>>[];
  };
}

/** How far a piece of work is; `share` 0-1, null where it cannot be told. */
export interface Progress {
  readonly what: string;
  readonly share: number | null;
}

/** How work is watched and stopped. */
export interface Watching {
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: Progress) => void;
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
  /** The narrowest box around all places; null where no building has one. */
  readonly bounds: Bounds | null;
  /** Index into `tiers`. */
  readonly tier: Uint8Array;
  /** Index in hundredths (`rank/cents.ts`). */
  readonly cents: Int16Array;
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

/** The exponents of the index, 0-3, not all 0. */
export interface Weights {
  readonly load: number;
  readonly deficiency: number;
  readonly susceptibility: number;
}

/** A ranking under weights that are being tried, by building ordinal. */
export interface LiveAnswer {
  /** Index in hundredths (`rank/cents.ts`). */
  readonly cents: Int16Array;
  /** Index into `tiers`. */
  readonly tier: Uint8Array;
  /** From 1; 0 where not scored. */
  readonly rank: Int32Array;
  readonly counts: Readonly<Record<Tier, number>>;
}

/** How the ranking is ordered when no column is asked for. */
export const rankings = ['index', 'wetting', 'high', 'value_at_tier'] as const;
export type RankBy = (typeof rankings)[number];

/**
 * What a column must be: one of these words, where null is no record (the only one of a column of numbers), or a number
 * from (inclusive) to below (exclusive).
 */
export type Condition =
  | { readonly among: readonly (string | null)[] }
  | { readonly from?: number; readonly below?: number };

/** Conditions by output column (`sift/columns.ts`); a row passes that meets all of them. */
export type Conditions = Readonly<Record<string, Condition>>;

/** The rows wanted, and their order. An absent filter lets everything through. */
export interface RankQuery {
  readonly by: RankBy;
  /** Sort by this output column instead of the ranking. */
  readonly sort?: { readonly column: string; readonly descending: boolean };
  readonly on?: Conditions;
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

export const exportFormats = ['csv', 'json', 'geojson', 'xlsx', 'parquet'] as const;
export type ExportFormat = (typeof exportFormats)[number];

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
  /** Annual driving-rain index, where a wind grid was given; shown, not scored. */
  readonly drivingRain: {
    readonly windMs: number;
    readonly m2PerS: number;
    readonly class: string;
  } | null;
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
  open(inputs: Inputs, watching?: Watching): Promise<ReadReport>;
  /** Guesses how a table is read (or takes the map given), and shows its first rows so read. Changes nothing. */
  preview(
    source: ByteSource,
    wanted: 'buildings' | 'walls' | 'any',
    reading: SheetReading,
    maps: readonly ColumnMap[],
  ): Promise<Preview>;
  /** Remarks of what is open, in the order of file and row: how many match, and those of the window asked for. */
  remarks(query: RemarkQuery): Promise<{ n: number; rows: MarkedRemark[] }>;
  /** Corrections that would probably do, by kind. */
  mends(): Promise<OfferedMend[]>;
  /** The record of a table file that a remark speaks of; null where there is none. */
  record(
    file: string,
    table: 'building' | 'wall',
    row: number,
    wall: string | null,
  ): Promise<RecordView | null>;
  /** Every remark as the text of a CSV, with a column for corrections. */
  remarksText(): Promise<string>;
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
  /**
   * Ranks again at once under other weights, all else as last scored, until the next scoring or null. Index and tier are
   * those that a scoring would print; the order is too but for buildings of equal index, which stay in the order they had.
   */
  lean(weights: Weights | null): Promise<LiveAnswer | null>;
  /** Makes the last scoring ready for `lean`: at a million that takes seconds, which the first move of a slider need not. */
  prepareLean(): Promise<void>;
  /** Building ordinals that match, in order. */
  order(query: RankQuery): Promise<Int32Array>;
  /** The building of a rank; null where none has it. */
  atRank(rank: number): Promise<number | null>;
  /** What a column of the ranking may be filtered by. */
  facet(column: string): Promise<Facet>;
  /** Counts for the linked views, each under all conditions but those it sets itself. */
  views(query: RankQuery): Promise<ViewsAnswer>;
  /** Buildings, areas and values that match, by what they are divided by. */
  exposure(query: RankQuery, request: ExposureRequest): Promise<ExposureView>;
  /**
   * The output columns of these buildings, in the given order, with four more that the row's strip draws:
   * adequacy (0-1, what drains), susceptibility (0-1), sheathing, gap_asked_mm, all of the wall that sets the index.
   */
  rows(ordinals: Int32Array): Promise<Readonly<Record<string, number | string | null>>[]>;
  /** The user's own columns of these buildings by heading, as they came, in the order asked for. */
  own(ordinals: Int32Array): Promise<Columns>;
  building(b: number): Promise<BuildingDetail>;
  /** Derivation of one output column of a building, or of one column of one of its walls. */
  ledger(b: number, column: string, wall?: number): Promise<LedgerNode>;
  /** The ranking as a file's bytes, and the text of its `.about.json`. */
  write(
    format: ExportFormat,
    units: 'metric' | 'american',
  ): Promise<{ bytes: Uint8Array<ArrayBuffer>; about: string }>;
  /** The strata that fields make of a population. */
  strata(asked: PopulationQuery, fields: readonly StratumField[]): Promise<StrataView>;
  /** Draws a sample and makes its plan; the digests of the inputs are put into its head. What input spoils comes back in words. */
  draw(
    asked: PopulationQuery,
    request: SelectionRequest,
    head: PlanHead,
  ): Promise<SampleOutcome<DrawnPlan>>;
  /** Reads findings in place of those read before. Rejects with a `Refusal` and keeps what was there. */
  readFindings(sources: readonly ByteSource[]): Promise<FindingsView>;
  /** What the findings say of the population of a plan. */
  infer(plan: SamplingPlan, options: InferenceOptions): Promise<Inference>;
  /** What the findings of these plans teach. */
  learn(plans: readonly SamplingPlan[]): Promise<Learnt>;
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
