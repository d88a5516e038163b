import type { LayerSpecification } from 'maplibre-gl';
import { byZoom, expression, get, is, of } from './expressions.ts';
import { landLayers, rainLayers } from './ground-layers.ts';
import { cityLayers, figureLayers, regionLayers } from './name-layers.ts';
import type { SheetTheme, ThemeName } from './theme.ts';

function buildingLayers(name: ThemeName): LayerSpecification[] {
  const size = ['step', get('n'), '0', 10, '1', 100, '2'];
  return [
    {
      id: 'buildings',
      type: 'symbol',
      ...of('buildings'),
      layout: {
        'icon-image': expression('concat', `${name}-`, get('tier'), '-', size),
        'icon-allow-overlap': true,
        'icon-ignore-placement': true,
        'icon-size': byZoom(3, 0.9, 8, 1.15),
        'symbol-z-order': 'source',
      },
    },
  ];
}

/** Rings around the building under the pointer and the selected one, which may lie under another's mark. */
function pickedLayers(theme: SheetTheme, name: ThemeName): LayerSpecification[] {
  const ring = (id: string, state: string, radius: number, width: number): LayerSpecification => ({
    id,
    type: 'circle',
    source: 'picked',
    filter: is('state', state),
    paint: {
      'circle-radius': radius,
      'circle-color': theme.halo,
      'circle-opacity': 0.55,
      'circle-stroke-color': theme.picked,
      'circle-stroke-width': width,
    },
  });
  return [
    ring('hovered-ring', 'hovered', 11, 1.4),
    ring('selected-ring', 'selected', 13, 2.4),
    {
      id: 'picked-marks',
      type: 'symbol',
      source: 'picked',
      layout: {
        'icon-image': expression('concat', `${name}-`, get('tier'), '-1'),
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
    ...buildingLayers(name),
    ...cityLayers(theme, name),
    ...pickedLayers(theme, name),
  ];
}
