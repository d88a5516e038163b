import type { ExpressionSpecification, LayerSpecification } from 'maplibre-gl';
import { byZoom, expression, get, is, of } from './expressions.ts';
import { deepestMm, rainShade } from './rain/ramp.ts';
import type { SheetTheme } from './theme.ts';

/** Shades at fixed rains, between which the renderer blends. */
function shadeOf(ramp: readonly string[]): ExpressionSpecification {
  const stops = Array.from({ length: 33 }, (_, i) => deepestMm * (i / 32) ** 2);
  const shades = stops.flatMap((mm) => [mm, rainShade(ramp, mm)]);
  return expression('interpolate', ['linear'], get('shade'), ...shades);
}

/** Paper, the bands of rain, and their lines. */
export function rainLayers(theme: SheetTheme): LayerSpecification[] {
  // Thin lines bend gently: round joins would double their triangles and show nowhere.
  const line = { 'line-cap': 'butt', 'line-join': 'miter' } as const;
  return [
    { id: 'paper', type: 'background', paint: { 'background-color': theme.paper } },
    {
      id: 'rain-bands',
      type: 'fill',
      ...of('rain'),
      filter: is('kind', 'band'),
      paint: { 'fill-color': shadeOf(theme.ramp), 'fill-antialias': false },
    },
    {
      id: 'isohyets',
      type: 'line',
      ...of('rain'),
      filter: expression('all', is('kind', 'isohyet'), is('main', false)),
      layout: line,
      paint: { 'line-color': theme.isohyet, 'line-width': 0.7, 'line-opacity': 0.75 },
    },
    {
      id: 'main-isohyet',
      type: 'line',
      ...of('rain'),
      filter: expression('all', is('kind', 'isohyet'), is('main', true)),
      layout: line,
      paint: { 'line-color': theme.mainIsohyet, 'line-width': byZoom(2, 1.4, 7, 2.4) },
    },
  ];
}

/** Water lies above rain: it shows on land only. */
export function landLayers(theme: SheetTheme): LayerSpecification[] {
  const line = (
    id: string,
    kinds: readonly string[],
    paint: Extract<LayerSpecification, { type: 'line' }>['paint'],
  ): LayerSpecification => ({
    id,
    type: 'line',
    ...of('land'),
    filter: expression('match', get('kind'), kinds, true, false),
    layout: { 'line-join': 'bevel' },
    paint: paint ?? {},
  });
  return [
    {
      id: 'water',
      type: 'fill',
      ...of('land'),
      filter: expression('match', get('kind'), ['ocean', 'lake'], true, false),
      paint: { 'fill-color': theme.water, 'fill-antialias': false },
    },
    line('state-lines', ['state', 'province'], {
      'line-color': theme.stateLine,
      'line-width': byZoom(2, 0.4, 7, 0.9),
      'line-dasharray': [5, 2.5],
    }),
    line('country-lines', ['country'], {
      'line-color': theme.countryLine,
      'line-width': byZoom(2, 0.7, 7, 1.5),
    }),
    line('shores', ['coast', 'lake'], {
      'line-color': theme.coast,
      'line-width': byZoom(2, 0.5, 7, 1.1),
    }),
  ];
}
