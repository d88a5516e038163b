import {
  addProtocol,
  type GeoJSONSource,
  type Map as MapCanvas,
  type MapMouseEvent,
  removeProtocol,
  ScaleControl,
  setWorkerUrl,
} from 'maplibre-gl';
import mapWorkerUrl from 'maplibre-gl/dist/maplibre-gl-worker.mjs?worker&url';
import type { Bounds } from '../../analysis/place/bounds.ts';
import type { Frame, RainSheet } from '../../analysis/session-types.ts';
import { sheetLayers } from './layers.ts';
import { beside, newCanvas, showView, viewOf } from './map-canvas.ts';
import { markImage } from './mark-images.ts';
import { type Picked, pickedFeatures, placeIn } from './picked.ts';
import { type PointedMark, pointedAt, watchPointer } from './pointed.ts';
import type { Units } from './rain/levels.ts';
import { createRefresher, type Refresher } from './refresher.ts';
import { sheetStyle, tileOf } from './style.ts';
import { sheetThemes, type ThemeName } from './theme.ts';
import type { CellSummary } from './tiles/cells.ts';
import { TileClient } from './tiles/client.ts';
import type { Scores } from './tiles/entries.ts';
import type { MapMessages, MessageName, Places, TileSet } from './tiles/messages.ts';
import { deepestZoom } from './tiles/zooms.ts';

setWorkerUrl(mapWorkerUrl);

/** What the sheet tells the panel around it. */
export interface SheetEvents {
  /** The mark under the pointer, or none. */
  onPoint(mark: PointedMark | undefined): void;
  /** A click on a building, or on empty ground. */
  onPick(b: number | undefined): void;
  /** How many buildings have a place on the sheet. */
  onPlaced(n: number): void;
  /** A key pressed on the canvas, without a modifier. */
  onKey(key: string): void;
  /** Whether all that was asked for is drawn. */
  onDrawn(drawn: boolean): void;
  /** The sheet cannot go on drawing. */
  onTrouble(cause: { readonly message: string }): void;
}

const scaleUnit: Readonly<Record<Units, 'metric' | 'imperial'>> = {
  metric: 'metric',
  american: 'imperial',
};

type PlacesInView = Places & Pick<Frame, 'bounds'>;

let opened = 0;

/** One map on the page: its canvas, its worker, and the tile protocol between them. */
export class SheetMap {
  readonly #map: MapCanvas;
  readonly #tiles: TileClient;
  readonly #protocol = `rain-sheet-${++opened}`;
  readonly #scale = new ScaleControl({ maxWidth: 110 });
  readonly #events: SheetEvents;
  readonly #redraw = () => this.#map.redraw();
  readonly #refresher: Refresher;
  #places: PlacesInView;
  #tier: Uint8Array = new Uint8Array(0);
  #view: Bounds;
  #showsAll = true;

  /** Throws when the browser offers no WebGL 2. */
  constructor(
    container: HTMLElement,
    start: { places: PlacesInView; theme: ThemeName; units: Units },
    events: SheetEvents,
  ) {
    this.#places = start.places;
    this.#view = viewOf(start.places);
    this.#events = events;
    this.#map = newCanvas(container, sheetStyle(this.#protocol, start.theme), this.#view);
    this.#refresher = createRefresher(this.#map);
    const worker = new Worker(new URL('./tiles/worker.ts', import.meta.url), { type: 'module' });
    this.#tiles = new TileClient(worker, events.onTrouble);
    addProtocol(this.#protocol, async ({ url }, { signal }) => {
      const tile = tileOf(url);
      this.#refresher.asked(tile.set);
      return { data: await this.#tiles.ask('tile', tile, { signal }) };
    });
    this.#listen();
    this.#place();
    this.setUnits(start.units);
  }

  get canvas(): HTMLCanvasElement {
    return this.#map.getCanvas();
  }

  /** A new portfolio, all of it shown and none of it scored yet; brings it into view. */
  setPlaces(places: PlacesInView): void {
    if (places === this.#places) return;
    this.#places = places;
    this.#tier = new Uint8Array(0);
    this.#view = viewOf(places);
    this.#showsAll = true;
    this.#place();
    showView(this.#map, this.#view, false);
  }

  /** New scores of the same buildings, which keep their places. Answers the buildings in each tier. */
  setScores({ tier, cents }: Scores): Promise<readonly number[] | undefined> {
    this.#tier = tier;
    const given = { tier: tier.slice(), cents: cents.slice() };
    return this.#change('buildings', 'scores', given, [given.tier.buffer, given.cents.buffer]);
  }

  /** Ordinals that pass the filters; null when all do. */
  setShown(ordinals: Int32Array | null): void {
    if (!ordinals && this.#showsAll) return;
    this.#showsAll = !ordinals;
    const given = ordinals?.slice() ?? null;
    this.#change('buildings', 'shown', given, given ? [given.buffer] : []);
  }

  /** What lies under a mark; undefined when it is no longer shown. */
  async under({ b, several }: PointedMark): Promise<CellSummary | undefined> {
    return several && this.#tiles.ask('cell', { b, z: several.z });
  }

  /** Answers the least and most rain of the sheet, mm. */
  async setRain(sheet: RainSheet): Promise<readonly [number, number] | undefined> {
    return this.#change('rain', 'sheet', sheet);
  }

  setUnits(units: Units): void {
    this.#change('rain', 'units', units);
    this.#scale.setUnit(scaleUnit[units]);
  }

  setTheme(name: ThemeName): void {
    if (!this.#map.isStyleLoaded()) return void this.#map.once('load', () => this.setTheme(name));
    this.#events.onDrawn(false);
    for (const layer of sheetLayers(sheetThemes[name], name)) {
      const icon = layer.type === 'symbol' && layer.layout?.['icon-image'];
      if (icon) this.#map.setLayoutProperty(layer.id, 'icon-image', icon);
      for (const [paint, value] of Object.entries(layer.paint ?? {})) {
        this.#map.setPaintProperty(layer.id, paint as never, value as never);
      }
    }
  }

  /** Rings the hovered and the selected building. */
  setPicked(picked: Picked): void {
    const source = this.#map.getSource<GeoJSONSource>('picked');
    if (!source) return void this.#map.once('load', () => this.setPicked(picked));
    source.setData(pickedFeatures(this.#places, this.#tier, picked));
  }

  /** Brings a building into view, when it is not. */
  reveal(b: number): void {
    const place = this.#placeOf(b);
    if (!place || this.#map.getBounds().contains(place)) return;
    this.#map.flyTo({ center: place, maxDuration: 1200 });
  }

  showAll(): void {
    showView(this.#map, this.#view, true);
  }

  zoomBy(levels: number): void {
    this.#map.zoomTo(this.#map.getZoom() + levels, { duration: 200 });
  }

  /** Shown buildings in view, nearest to its centre first. */
  nearest(atMost: number): Promise<Uint32Array> {
    const [{ lng, lat }, bounds] = [this.#map.getCenter(), this.#map.getBounds()];
    const within = {
      west: bounds.getWest(),
      south: bounds.getSouth(),
      east: bounds.getEast(),
      north: bounds.getNorth(),
    };
    return this.#tiles.ask('nearest', { within, longitude: lng, latitude: lat, atMost });
  }

  /** Where a mark lies in the panel, CSS pixels. */
  positionOf(mark: PointedMark): { x: number; y: number } | undefined {
    const place = mark.several ? this.#beside(mark.several.place) : this.#placeOf(mark.b);
    return place && this.#map.project(place);
  }

  onMove(listener: () => void): void {
    this.#map.on('move', listener);
  }

  remove(): void {
    removeEventListener('beforeprint', this.#redraw);
    this.#tiles.close();
    this.#map.remove();
    removeProtocol(this.#protocol);
  }

  #placeOf(b: number): [number, number] | undefined {
    const place = placeIn(this.#places, b);
    return place && this.#beside(place);
  }

  #beside(place: readonly [number, number]): [number, number] {
    return beside(this.#map.getCenter().lng, place);
  }

  async #place(): Promise<void> {
    const given = {
      longitude: this.#places.longitude.slice(),
      latitude: this.#places.latitude.slice(),
    };
    const buffers = [given.longitude.buffer, given.latitude.buffer];
    const places = this.#places;
    const n = await this.#change('buildings', 'portfolio', given, buffers);
    if (n !== undefined && places === this.#places) this.#events.onPlaced(n);
  }

  /** Tells the worker of a change and has the set drawn anew; an answer that fails is trouble, and none. */
  async #change<Name extends MessageName>(
    set: TileSet,
    name: Name,
    request: MapMessages[Name]['request'],
    transfer: Transferable[] = [],
  ): Promise<MapMessages[Name]['answer'] | undefined> {
    const answer = this.#tiles.ask(name, request, { transfer });
    if (this.#refresher.changed(set)) this.#events.onDrawn(false);
    try {
      return await answer;
    } catch (cause) {
      this.#trouble(cause as Error);
      return undefined;
    }
  }

  #trouble(cause: { readonly message: string; readonly name?: string }): void {
    if (cause.name !== 'AbortError') this.#events.onTrouble(cause);
  }

  #idle(): void {
    this.#refresher.settle();
    if (this.#refresher.isFresh()) this.#events.onDrawn(true);
  }

  #listen(): void {
    const map = this.#map;
    map.setMissingStyleImageResolver((id) => {
      const mark = markImage(id, devicePixelRatio);
      if (mark) map.addImage(id, mark.image, { pixelRatio: mark.pixelRatio });
    });
    map.addControl(this.#scale, 'bottom-left');
    map.on('idle', () => this.#idle());
    map.on('movestart', () => this.#events.onDrawn(false));
    map.on('sourcedata', () => this.#refresher.isFresh() || this.#refresher.settle());
    watchPointer(map, (mark) => this.#events.onPoint(mark));
    map.on('click', (event) => this.#click(event));
    map.on('error', ({ error }) => this.#trouble(error));
    this.canvas.addEventListener('keydown', ({ key, ctrlKey, metaKey, altKey }) => {
      if (!ctrlKey && !metaKey && !altKey) this.#events.onKey(key);
    });
    addEventListener('beforeprint', this.#redraw);
  }

  /** A mark over several buildings opens by drawing nearer, as far as that helps; else its building is picked. */
  #click({ point }: MapMouseEvent): void {
    const mark = pointedAt(this.#map, point);
    const zoom = this.#map.getZoom();
    if (!mark?.several || zoom >= deepestZoom.buildings) {
      this.#events.onPick(mark?.b);
      return;
    }
    const nearer = Math.min(deepestZoom.buildings, zoom + 2);
    this.#map.easeTo({ center: [...mark.several.place], zoom: nearer });
  }
}
