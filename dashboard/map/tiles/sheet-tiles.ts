import { extent as rangeOf } from 'd3';
import type { RainSheet } from '../../../analysis/session-types.ts';
import type { Units } from '../rain/levels.ts';
import { marksOf } from './cells.ts';
import { encodeFeatures, encodeMarks } from './encode.ts';
import { type LandSources, landShapes } from './land.ts';
import { LandTiles } from './land-tile.ts';
import type { TileId } from './mercator.ts';
import type { MapMessages, NearestRequest, TileSet } from './messages.ts';
import { nearestBuildings } from './nearest.ts';
import { keepShown, type PlacedBuildings, placeBuildings } from './portfolio.ts';
import { rainTile } from './rain-tile.ts';

/** Holds what the map draws and cuts it into tiles; lives in the map's worker. */
export class SheetTiles {
  readonly #land: Promise<LandTiles>;
  #all: PlacedBuildings = placeBuildings(new Float64Array(0), new Float64Array(0));
  #shown = this.#all;
  #scores: Pick<MapMessages['portfolio']['request'], 'tier' | 'index'> = {
    tier: new Uint8Array(0),
    index: new Float64Array(0),
  };
  #sheet: RainSheet | undefined;
  #units: Units = 'american';

  constructor(sources: Promise<LandSources>) {
    this.#land = sources.then((land) => new LandTiles(landShapes(land)));
  }

  portfolio(request: MapMessages['portfolio']['request']): null {
    this.#all = placeBuildings(request.longitude, request.latitude);
    this.#shown = this.#all;
    this.#scores = request;
    return null;
  }

  shown(ordinals: Int32Array): null {
    const mask = new Uint8Array(this.#scores.tier.length);
    for (const b of ordinals) mask[b] = 1;
    this.#shown = keepShown(this.#all, mask);
    return null;
  }

  sheet(sheet: RainSheet): MapMessages['sheet']['answer'] {
    this.#sheet = sheet;
    const [least, most] = rangeOf(sheet.mm);
    return least === undefined ? undefined : [least, most];
  }

  units(units: Units): null {
    this.#units = units;
    return null;
  }

  async tile({ set, ...tile }: TileId & { set: TileSet }): Promise<ArrayBuffer> {
    if (set === 'buildings') return encodeMarks(marksOf(this.#shown, this.#scores, tile));
    const land = await this.#land;
    if (set === 'land') return encodeFeatures(land.tile(tile));
    if (!this.#sheet) return encodeFeatures([]);
    return encodeFeatures(rainTile(this.#sheet, this.#units, tile, land.waters(tile)));
  }

  nearest(request: NearestRequest): Uint32Array {
    return nearestBuildings(this.#shown, request);
  }
}
