import type { Bounds } from '../../../analysis/place/bounds.ts';
import type { Frame, RainSheet } from '../../../analysis/session-types.ts';
import type { Units } from '../rain/levels.ts';
import type { CellSummary } from './cells.ts';
import type { Scores } from './entries.ts';
import type { TileId } from './mercator.ts';

/** The three tile sets of the sheet. */
export type TileSet = 'land' | 'rain' | 'buildings';

/** Request and answer by name: all that passes between the map and its worker. */
export interface MapMessages {
  /** A new portfolio, all of it shown and none of it scored. Answers how many have a place. */
  portfolio: { request: Places; answer: number };
  /** Tier and index of the portfolio. Answers the buildings in each tier. */
  scores: { request: Scores; answer: readonly number[] };
  /** Ordinals that pass the filters; null when all do. */
  shown: { request: Int32Array | null; answer: null };
  /** What lies under the mark of a building in the tiles of a zoom; undefined when it is not shown. */
  cell: { request: { readonly z: number; readonly b: number }; answer: CellSummary | undefined };
  /** A new rain sheet. Answers its least and most rain, mm, or undefined where it has no data at all. */
  sheet: { request: RainSheet; answer: readonly [least: number, most: number] | undefined };
  units: { request: Units; answer: null };
  /** A Mapbox Vector Tile. */
  tile: { request: TileId & { set: TileSet }; answer: ArrayBuffer };
  /** Shown buildings within the box, nearest to the centre first. */
  nearest: { request: NearestRequest; answer: Uint32Array };
}

/** Degrees by ordinal; NaN is no record. */
export type Places = Pick<Frame, 'longitude' | 'latitude'>;

export interface NearestRequest {
  readonly within: Bounds;
  readonly longitude: number;
  readonly latitude: number;
  readonly atMost: number;
}

export type MessageName = keyof MapMessages;

export interface Envelope<Name extends MessageName = MessageName> {
  readonly id: number;
  readonly name: Name;
  readonly request: MapMessages[Name]['request'];
}

export type Reply =
  | { readonly id: number; readonly answer: unknown }
  | { readonly id: number; readonly error: string };
