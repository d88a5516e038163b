import { extent as rangeOf } from 'd3';
import { noIndex } from '../../../analysis/rank/cents.ts';
import { type RainSheet, tiers } from '../../../analysis/session-types.ts';
import type { Units } from '../rain/levels.ts';
import { type CellSummary, cellAt, marksOf } from './cells.ts';
import { encodeFeatures, encodeMarks } from './encode.ts';
import { countTiers, type Entries, entryScores, type Scores, shownOf } from './entries.ts';
import { type LandSources, landShapes } from './land.ts';
import { LandTiles } from './land-tile.ts';
import type { TileId } from './mercator.ts';
import type { MapMessages, NearestRequest, Places, TileSet } from './messages.ts';
import { nearestBuildings } from './nearest.ts';
import { placeBuildings } from './portfolio.ts';
import { rainTile } from './rain-tile.ts';

/** Holds what the map draws and cuts it into tiles; lives in the map's worker. */
export class SheetTiles {
  readonly #land: Promise<LandTiles>;
  #entries = entriesOf({ longitude: new Float64Array(0), latitude: new Float64Array(0) });
  #sheet: RainSheet | undefined;
  #units: Units = 'american';

  constructor(sources: Promise<LandSources>) {
    this.#land = sources.then((land) => new LandTiles(landShapes(land)));
  }

  portfolio(places: Places): number {
    this.#entries = entriesOf(places);
    return this.#entries.placed.ordinal.length;
  }

  /** Places and what is shown stay as they are. */
  scores(scores: Scores): readonly number[] {
    const { placed } = this.#entries;
    this.#entries = { ...this.#entries, scores: entryScores(placed, scores) };
    return countTiers(scores.tier);
  }

  shown(ordinals: Int32Array | null): null {
    this.#entries = { ...this.#entries, shown: shownOf(this.#entries.placed, ordinals) };
    return null;
  }

  cell({ z, b }: MapMessages['cell']['request']): CellSummary | undefined {
    return cellAt(this.#entries, z, b);
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
    if (set === 'buildings') return encodeMarks(marksOf(this.#entries, tile));
    const land = await this.#land;
    if (set === 'land') return encodeFeatures(land.tile(tile));
    if (!this.#sheet) return encodeFeatures([]);
    return encodeFeatures(rainTile(this.#sheet, this.#units, tile, land.waters(tile)));
  }

  nearest(request: NearestRequest): Uint32Array {
    return nearestBuildings(this.#entries, request);
  }
}

function entriesOf({ longitude, latitude }: Places): Entries {
  const placed = placeBuildings(longitude, latitude);
  const n = placed.ordinal.length;
  const unscored = {
    tier: new Uint8Array(n).fill(tiers.indexOf('Not scored')),
    cents: new Int16Array(n).fill(noIndex),
  };
  return { placed, scores: unscored, shown: shownOf(placed, null) };
}
