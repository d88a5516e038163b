import { cell } from '../columns.ts';
import type { LedgerNode } from '../session-types.ts';
import { buildingFact, constantNode, type Run } from './node.ts';

/** Rain at a building: the grid nodes it was made of, with their weights. */
export function rainNode(run: Run, b: number): LedgerNode {
  const { grid } = run.portfolio;
  const value = cell({ n: 1, cols: run.rain.columns }, 'rain_mm', b);
  const flag = cell({ n: 1, cols: run.rain.columns }, 'rain_flag', b);
  return {
    label: 'rain',
    value,
    unit: 'mm per year',
    formula: 'Σ weight · grid node',
    inputs: [
      ...gridNodes(run, b),
      buildingFact(run, b, 'latitude', '°'),
      buildingFact(run, b, 'longitude', '°'),
    ],
    source: `${grid.source}; ${grid.period}`,
    note: `Annual precipitation, melted snow included.${flag ? ` ${flag}.` : ''}`,
  };
}

function gridNodes({ portfolio: { grid }, rain: { sample } }: Run, b: number): LedgerNode[] {
  const places = [0, 1, 2, 3].map(
    (i) => [sample.node[4 * b + i]!, sample.weight[4 * b + i]!] as const,
  );
  return places
    .filter(([node, weight]) => node >= 0 && weight > 0)
    .map(([node, share]) => {
      const longitude = grid.west + (node % grid.width) * grid.stepX;
      const latitude = grid.north + Math.floor(node / grid.width) * grid.stepY;
      const east = longitude > 180 ? longitude - 360 : longitude;
      return {
        label: `grid node ${place(latitude, 'N', 'S')} ${place(east, 'E', 'W')}`,
        value: grid.mm[node]!,
        unit: 'mm per year',
        share,
        source: `${grid.source}, node ${node}`,
      };
    });
}

const place = (degrees: number, plus: string, minus: string): string =>
  `${Math.round(Math.abs(degrees) * 1e4) / 1e4}° ${degrees < 0 ? minus : plus}`;

const intervalFormula: Readonly<Record<string, string>> = {
  rain_low_mm: 'rain · exp(−z · s)',
  rain_high_mm: 'rain · exp(z · s)',
  p_rain_over_threshold: 'Φ((ln rain − ln T) / s)',
};

/** Low, high or the probability over the threshold; s is that of a run on a grid alone. */
export function rainIntervalNode(run: Run, b: number, column: string): LedgerNode {
  const over = column === 'p_rain_over_threshold';
  return {
    label: column,
    value: cell({ n: 1, cols: run.rain.columns }, column, b),
    ...(over ? {} : { unit: 'mm per year' }),
    formula: intervalFormula[column]!,
    inputs: [
      rainNode(run, b),
      constantNode(run.settings, 'grid_ln_sd', 's'),
      over
        ? constantNode(run.settings, 'rain_threshold_mm', 'T')
        : constantNode(run.settings, 'interval_z', 'z'),
    ],
  };
}
