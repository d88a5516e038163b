import type { LayerSpecification } from 'maplibre-gl';
import { byZoom, expression, get, is, of } from './expressions.ts';
import type { SheetTheme, ThemeName } from './theme.ts';

/** Family names of `fonts.css`: the map draws page fonts and does not quote their names. */
export const plain = ['RainledgerSans'];
const bold = ['RainledgerSans Bold'];

const halo = (theme: SheetTheme) => ({
  'text-halo-color': theme.halo,
  'text-halo-width': 1.1,
  'text-halo-blur': 0.6,
});
const sorted = { 'symbol-sort-key': get('rank'), 'text-field': get('name') };

/** Figures along the isohyets, which stand on land. */
export function figureLayers(theme: SheetTheme): LayerSpecification[] {
  const label = {
    'text-field': get('label'),
    'text-rotate': get('angle'),
    'text-rotation-alignment': 'map',
    'text-padding': 12,
    'symbol-sort-key': get('bend'),
  } as const;
  const ink = { 'text-halo-color': theme.halo, 'text-halo-width': 1.6, 'text-halo-blur': 0.4 };
  return [
    {
      id: 'isohyet-labels',
      type: 'symbol',
      ...of('rain'),
      filter: expression('all', is('kind', 'figure'), is('main', false)),
      layout: { ...label, 'text-font': plain, 'text-size': 11 },
      paint: { ...ink, 'text-color': theme.isohyet },
    },
    {
      id: 'main-isohyet-labels',
      type: 'symbol',
      ...of('rain'),
      filter: expression('all', is('kind', 'figure'), is('main', true)),
      layout: { ...label, 'text-font': bold, 'text-size': 12.5 },
      paint: { ...ink, 'text-color': theme.mainIsohyet },
    },
  ];
}

/** Names of countries and regions lie under the buildings. */
export function regionLayers(theme: SheetTheme): LayerSpecification[] {
  const spaced = { 'text-transform': 'uppercase', 'text-letter-spacing': 0.14 } as const;
  return [
    {
      id: 'country-names',
      type: 'symbol',
      source: 'places',
      maxzoom: 3.6,
      filter: is('kind', 'country'),
      layout: { ...sorted, ...spaced, 'text-font': bold, 'text-size': 12 },
      paint: { ...halo(theme), 'text-color': theme.name },
    },
    {
      id: 'region-names',
      type: 'symbol',
      source: 'places',
      minzoom: 3.6,
      maxzoom: 8,
      filter: expression('all', is('kind', 'region'), [
        '<=',
        get('rank'),
        ['step', ['zoom'], 2, 5, 3],
      ]),
      layout: {
        ...sorted,
        ...spaced,
        'text-font': plain,
        'text-size': byZoom(3.6, 9, 7, 13),
        'text-max-width': 7,
        'text-padding': 4,
      },
      paint: { ...halo(theme), 'text-color': theme.name },
    },
  ];
}

/** Cities lie over them: few, and needed where the buildings are. */
export function cityLayers(theme: SheetTheme, name: ThemeName): LayerSpecification[] {
  return [
    {
      id: 'city-names',
      type: 'symbol',
      source: 'places',
      filter: expression('all', is('kind', 'city'), [
        '<=',
        get('rank'),
        ['step', ['zoom'], 0, 2, 1, 4, 2, 5, 3],
      ]),
      layout: {
        ...sorted,
        'icon-image': `${name}-city`,
        'icon-allow-overlap': true,
        'text-font': plain,
        'text-size': byZoom(3, 11, 8, 14),
        'text-variable-anchor': ['left', 'right', 'top', 'bottom'],
        'text-radial-offset': 0.6,
        'text-optional': true,
        'text-padding': 3,
      },
      paint: { ...halo(theme), 'text-color': theme.cityName },
    },
  ];
}
