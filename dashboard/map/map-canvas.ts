import { type LngLatBoundsLike, Map as MapCanvas, type StyleSpecification } from 'maplibre-gl';
import type { Bounds } from '../../analysis/place/bounds.ts';
import { turnedTo } from '../../analysis/place/longitudes.ts';
import type { Frame } from '../../analysis/session-types.ts';

/** Shown when no building has a place: North America. */
const emptyView: Bounds = { west: -127, south: 24, east: -62, north: 55 };

/** How a view is fitted to its box. */
const fit = { padding: 34, maxZoom: 10 };

/** The view that holds a portfolio. */
export const viewOf = ({ bounds }: Pick<Frame, 'bounds'>): Bounds => bounds ?? emptyView;

const boxOf = ({ west, south, east, north }: Bounds): LngLatBoundsLike => [
  west,
  south,
  east,
  north,
];

/** The world is drawn again beside itself only where the view needs it: elsewhere the sheet ends with the world. */
const crosses = ({ east }: Bounds): boolean => east > 180;

/** Brings the view into the sheet. */
export function showView(map: MapCanvas, view: Bounds, animate: boolean): void {
  map.setRenderWorldCopies(crosses(view));
  map.fitBounds(boxOf(view), { ...fit, animate });
}

/** The place as it is nearest to a meridian: the world may be drawn again beside itself. */
export const beside = (
  meridian: number,
  [longitude, latitude]: readonly [number, number],
): [number, number] => [turnedTo(meridian, longitude), latitude];

/**
 * A flat map, north up, that moves without turning.
 * Throws when the browser offers no WebGL 2.
 */
export function newCanvas(
  container: HTMLElement,
  style: StyleSpecification,
  view: Bounds,
): MapCanvas {
  const map = new MapCanvas({
    container,
    style,
    bounds: boxOf(view),
    fitBoundsOptions: fit,
    minZoom: 1,
    maxZoom: 17,
    renderWorldCopies: crosses(view),
    attributionControl: false,
    dragRotate: false,
    pitchWithRotate: false,
    touchPitch: false,
    /** Marks and names appear at once: what is drawn is what is known. */
    fadeDuration: 0,
    locale: { 'Map.Title': 'Rain sheet' },
  });
  map.touchZoomRotate.disableRotation();
  map.keyboard.disableRotation();
  return map;
}
