import type { Frame, RainSheet } from '../../../analysis/session-types.ts';
import type { Units } from '../rain/levels.ts';
import type { Bounds, TileId } from './mercator.ts';

/** The three tile sets of the sheet. */
export type TileSet = 'land' | 'rain' | 'buildings';

/** Request and answer by name: all that passes between the map and its worker. */
export interface MapMessages {
  /** A new portfolio, all of it shown. */
  portfolio: {
    request: Pick<Frame, 'longitude' | 'latitude' | 'tier' | 'index'>;
    answer: null;
  };
  /** Ordinals that pass the filters. */
  shown: { request: Int32Array; answer: null };
  /** A new rain sheet. Answers its least and most rain, mm, or undefined where it has no data at all. */
  sheet: { request: RainSheet; answer: readonly [least: number, most: number] | undefined };
  units: { request: Units; answer: null };
  /** A Mapbox Vector Tile. */
  tile: { request: TileId & { set: TileSet }; answer: ArrayBuffer };
  /** Shown buildings within the box, nearest to the centre first. */
  nearest: { request: NearestRequest; answer: Uint32Array };
}

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
