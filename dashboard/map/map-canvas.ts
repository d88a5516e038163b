import { type LngLatBoundsLike, Map as MapCanvas, type StyleSpecification } from 'maplibre-gl';
import type { Bounds } from './tiles/mercator.ts';
import type { Places } from './tiles/messages.ts';
import { boundsOf } from './tiles/portfolio.ts';

/** Shown when no building has a place: North America. */
const emptyView: Bounds = { west: -127, south: 24, east: -62, north: 55 };

/** How a view is fitted to its box. */
export const fit = { padding: 34, maxZoom: 10 };

/** The box around a portfolio: a pass over all its places. */
export function viewOf({ longitude, latitude }: Places): LngLatBoundsLike {
  const { west, south, east, north } = boundsOf(longitude, latitude) ?? emptyView;
  return [west, south, east, north];
}

/**
 * A flat map, north up, that moves without turning.
 * Throws when the browser offers no WebGL 2.
 */
export function newCanvas(
  container: HTMLElement,
  style: StyleSpecification,
  bounds: LngLatBoundsLike,
): MapCanvas {
  const map = new MapCanvas({
    container,
    style,
    bounds,
    fitBoundsOptions: fit,
    minZoom: 1,
    maxZoom: 17,
    renderWorldCopies: false,
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
