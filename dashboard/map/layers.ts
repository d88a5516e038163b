import type { ExpressionSpecification, LayerSpecification } from 'maplibre-gl';
import { byZoom, expression, get, is, of } from './expressions.ts';
import { landLayers, rainLayers } from './ground-layers.ts';
import { cityLayers, figureLayers, plain, regionLayers } from './name-layers.ts';
import type { SheetTheme, ThemeName } from './theme.ts';

/** The image of a mark, by its tier, the buildings under it and their mean index (`mark-images.ts`). */
const markImage = (name: ThemeName) => {
  const one = ['concat', `${name}-`, get('tier')];
  const size = ['step', get('n'), '0', 100, '1', 10_000, '2'];
  const tenth = ['to-string', get('tenth')];
  return expression('case', is('n', 1), one, ['concat', ...one.slice(1), '-', size, '-', tenth]);
};

/** Buildings under a mark of several, short: `85`, `1.2k`, `34k`, `1.2m`; a mark of one says nothing. */
const shortCount = () => {
  const tenths = (unit: number) => ['/', ['round', ['/', get('n'), unit / 10]], 10];
  const inUnits = (value: unknown, letter: string) => ['concat', ['to-string', value], letter];
  return expression(
    'step',
    get('n'),
    '',
    2,
    ['to-string', get('n')],
    1000,
    inUnits(tenths(1000), 'k'),
    9950,
    inUnits(['round', ['/', get('n'), 1000]], 'k'),
    999_500,
    inUnits(tenths(1e6), 'm'),
  );
};

/** One building's mark, or a larger one of several with their number in it. */
function buildingLayers(theme: SheetTheme, name: ThemeName): LayerSpecification[] {
  return [
    {
      id: 'buildings',
      type: 'symbol',
      ...of('buildings'),
      layout: {
        'icon-image': markImage(name),
        'icon-allow-overlap': true,
        'icon-ignore-placement': true,
        'icon-size': byZoom(3, 0.9, 8, 1.15),
        'text-field': shortCount(),
        'text-font': plain,
        'text-size': byZoom(3, 10, 8, 11.5),
        'text-offset': [0, -0.15],
        // Marks that overlap keep one number, and names of cities come first.
        'text-optional': true,
        'text-padding': 3,
        'symbol-z-order': 'source',
      },
      paint: {
        'text-color': theme.cityName,
        'text-halo-color': theme.halo,
        'text-halo-width': 1.3,
      },
    },
  ];
}

/** Rings around the building under the pointer and the selected one, which may lie under another's mark. */
function pickedLayers(theme: SheetTheme, name: ThemeName): LayerSpecification[] {
  const ring = (
    id: string,
    state: string,
    radius: number | ExpressionSpecification,
    width: number,
  ): LayerSpecification => ({
    id,
    type: 'circle',
    source: 'picked',
    filter: is('state', state),
    paint: {
      'circle-radius': radius,
      'circle-color': theme.halo,
      'circle-opacity': expression('case', is('n', 1), 0.55, 0),
      'circle-stroke-color': theme.picked,
      'circle-stroke-width': width,
    },
  });
  return [
    ring('hovered-ring', 'hovered', expression('case', is('n', 1), 11, 20), 1.4),
    ring('selected-ring', 'selected', 13, 2.4),
    {
      id: 'picked-marks',
      type: 'symbol',
      source: 'picked',
      // The mark of several is large enough to be seen.
      filter: is('n', 1),
      layout: {
        'icon-image': markImage(name),
        'icon-allow-overlap': true,
        'icon-ignore-placement': true,
      },
    },
  ];
}

/** Every layer of the sheet, lowest first. */
export function sheetLayers(theme: SheetTheme, name: ThemeName): LayerSpecification[] {
  return [
    ...rainLayers(theme),
    ...landLayers(theme),
    ...figureLayers(theme),
    ...regionLayers(theme),
    ...buildingLayers(theme, name),
    ...cityLayers(theme, name),
    ...pickedLayers(theme, name),
  ];
}
