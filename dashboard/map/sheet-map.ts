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
import type { Frame, RainSheet } from '../../analysis/session-types.ts';
import { sheetLayers } from './layers.ts';
import { fit, newCanvas, viewOf } from './map-canvas.ts';
import { markImages } from './mark-images.ts';
import { type Picked, pickedFeatures } from './picked.ts';
import { type PointedMark, pointedAt } from './pointed.ts';
import type { Units } from './rain/levels.ts';
import { sheetStyle, tileOf } from './style.ts';
import { sheetThemes, type ThemeName } from './theme.ts';
import { TileClient } from './tiles/client.ts';
import type { MapMessages, MessageName, TileSet } from './tiles/messages.ts';
import { streetZoom } from './tiles/zooms.ts';

setWorkerUrl(mapWorkerUrl);

/** What the sheet tells the panel around it. */
export interface SheetEvents {
  /** The mark under the pointer, or none. */
  onPoint(mark: PointedMark | undefined): void;
  /** A click on a building, or on empty ground. */
  onPick(b: number | undefined): void;
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

let opened = 0;

/** One map on the page: its canvas, its worker, and the tile protocol between them. */
export class SheetMap {
  readonly #map: MapCanvas;
  readonly #tiles: TileClient;
  readonly #protocol = `rain-sheet-${++opened}`;
  readonly #scale = new ScaleControl({ maxWidth: 110 });
  readonly #events: SheetEvents;
  readonly #redraw = () => this.#map.redraw();
  /** Tile sets that changed while tiles were on their way, which may have been cut before the change. */
  readonly #stale = new Set<TileSet>();
  #frame: Frame;

  /** Throws when the browser offers no WebGL 2. */
  constructor(
    container: HTMLElement,
    start: { frame: Frame; theme: ThemeName; units: Units },
    events: SheetEvents,
  ) {
    this.#frame = start.frame;
    this.#events = events;
    this.#map = newCanvas(container, sheetStyle(this.#protocol, start.theme), start.frame);
    const worker = new Worker(new URL('./tiles/worker.ts', import.meta.url), { type: 'module' });
    this.#tiles = new TileClient(worker, events.onTrouble);
    addProtocol(this.#protocol, async ({ url }, { signal }) => ({
      data: await this.#tiles.ask('tile', tileOf(url), signal),
    }));
    this.#listen();
    this.setFrame(start.frame);
    this.setUnits(start.units);
  }

  get canvas(): HTMLCanvasElement {
    return this.#map.getCanvas();
  }

  /** A new portfolio, all of it shown. */
  setFrame(frame: Frame): void {
    const moved = frame !== this.#frame;
    this.#frame = frame;
    const { longitude, latitude, tier, index } = frame;
    this.#tell('portfolio', { longitude, latitude, tier, index });
    this.#refresh('buildings');
    if (moved) this.#map.fitBounds(viewOf(frame), { ...fit, animate: false });
  }

  setShown(ordinals: Int32Array): void {
    this.#tell('shown', ordinals);
    this.#refresh('buildings');
  }

  /** Answers the least and most rain of the sheet, mm. */
  async setRain(sheet: RainSheet): Promise<readonly [number, number] | undefined> {
    const range = this.#tell('sheet', sheet);
    this.#refresh('rain');
    return range;
  }

  setUnits(units: Units): void {
    this.#tell('units', units);
    this.#refresh('rain');
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
    source.setData(pickedFeatures(this.#frame, picked));
  }

  /** Brings a building into view, when it is not. */
  reveal(b: number): void {
    const place = this.#placeOf(b);
    if (!place || this.#map.getBounds().contains(place)) return;
    this.#map.flyTo({ center: place, maxDuration: 1200 });
  }

  showAll(): void {
    this.#map.fitBounds(viewOf(this.#frame), fit);
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

  /** Where a building lies in the panel, CSS pixels. */
  positionOf(b: number): { x: number; y: number } | undefined {
    const place = this.#placeOf(b);
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
    const place: [number, number] = [this.#frame.longitude[b]!, this.#frame.latitude[b]!];
    return place.every(Number.isFinite) ? place : undefined;
  }

  /** Tells the worker something; an answer that fails is trouble, and none. */
  async #tell<Name extends MessageName>(
    name: Name,
    request: MapMessages[Name]['request'],
  ): Promise<MapMessages[Name]['answer'] | undefined> {
    try {
      return await this.#tiles.ask(name, request);
    } catch (cause) {
      this.#trouble(cause as Error);
      return undefined;
    }
  }

  #trouble(cause: { readonly message: string; readonly name?: string }): void {
    if (cause.name !== 'AbortError') this.#events.onTrouble(cause);
  }

  #refresh(set: TileSet): void {
    this.#events.onDrawn(false);
    if (!this.#map.getSource(set)) return;
    if (!this.#map.areTilesLoaded()) this.#stale.add(set);
    this.#map.refreshTiles(set);
  }

  #idle(): void {
    const sets = [...this.#stale];
    this.#stale.clear();
    for (const set of sets) this.#refresh(set);
    if (sets.length === 0) this.#events.onDrawn(true);
  }

  #listen(): void {
    const map = this.#map;
    for (const { name, image, pixelRatio } of markImages(devicePixelRatio)) {
      map.addImage(name, image, { pixelRatio });
    }
    map.addControl(this.#scale, 'bottom-left');
    map.on('idle', () => this.#idle());
    map.on('movestart', () => this.#events.onDrawn(false));
    map.on('mousemove', ({ point }) => this.#events.onPoint(pointedAt(map, point)));
    map.on('mouseout', () => this.#events.onPoint(undefined));
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
    if (!mark || mark.n === 1 || this.#map.getZoom() >= streetZoom) {
      this.#events.onPick(mark?.b);
      return;
    }
    const zoom = Math.min(streetZoom, this.#map.getZoom() + 2);
    this.#map.easeTo({ center: this.#placeOf(mark.b)!, zoom });
  }
}
