import { cell, numbers } from '../columns.ts';
import { placeOfNode } from '../rain/projection.ts';
import { nodesAt, samplingLimits } from '../rain/sample.ts';
import type { LedgerNode } from '../session-types.ts';
import { stationWeights } from '../stations/adjust.ts';
import type { Adjusting } from '../stations/fit.ts';
import { buildingFact, constantNode, type Run } from './node.ts';

const rainCell = ({ rain }: Run, b: number, column: string) =>
  cell({ n: 1, cols: rain.columns }, column, b);

/** Rain at a building: the median that everything is made from. */
export function rainNode(run: Run, b: number): LedgerNode {
  const { making } = run;
  const flag = rainCell(run, b, 'rain_flag');
  const common = {
    label: 'rain',
    value: rainCell(run, b, 'rain_mm'),
    unit: 'mm per year',
    source: `${making.source}; ${making.period}`,
    note: `Annual precipitation, melted snow included.${flag ? ` ${flag}.` : ''}`,
  };
  const grid = gridNode(run, b);
  if (common.value === null) return { ...common, inputs: [grid] };
  if (!making.fit?.on) return { ...common, step: 1e-4, formula: 'grid value', inputs: [grid] };
  return `${flag}`.includes('level of the stations only')
    ? { ...common, step: 1e-4, ...levelOnly(making.fit, grid) }
    : { ...common, step: 1e-4, ...kriged(run, making.fit, b, grid) };
}

/** The grid's own value: bilinear between its nodes. */
function gridNode(run: Run, b: number): LedgerNode {
  const { grid } = run.portfolio;
  const mm = run.rain.sample.mm[b]!;
  return {
    label: 'grid value',
    value: Number.isNaN(mm) ? null : mm,
    unit: 'mm per year',
    formula: 'Σ share · node',
    step: 1e-4,
    inputs: [
      ...gridNodes(run, b),
      buildingFact(run, b, 'latitude', '°'),
      buildingFact(run, b, 'longitude', '°'),
    ],
    source: `${grid.source}; ${grid.period}`,
  };
}

const placed = ({ portfolio: { buildings } }: Run, b: number): readonly [number, number] => [
  numbers(buildings, 'longitude')[b]!,
  numbers(buildings, 'latitude')[b]!,
];

function gridNodes(run: Run, b: number): LedgerNode[] {
  const { grid } = run.portfolio;
  const { node, weight } = nodesAt(grid, ...placed(run, b), samplingLimits(run.settings));
  return Array.from(node, (id, i) => [id, weight[i]!] as const)
    .filter(([node, weight]) => node >= 0 && weight > 0)
    .map(([node, share]) => {
      const [longitude, latitude] = placeOfNode(grid, node);
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

/** Kriging with external drift, as the weighted mean of the stations' normals that it comes to. */
function kriged(run: Run, fit: Adjusting, b: number, grid: LedgerNode): Partial<LedgerNode> {
  const { stations } = fit.network;
  const file = run.making.stations!;
  const weights = stationWeights(fit, ...placed(run, b), grid.value as number);
  return {
    formula: 'exp(Σ share · ln(normal) + period shift)',
    inputs: [
      ...weights
        .toSorted((a, c) => Math.abs(c.weight) - Math.abs(a.weight))
        .map(({ station, km, weight }) => ({
          label: stations.name[station] ?? `station of row ${stations.row[station]}`,
          value: stations.mm[station]!,
          unit: 'mm per year',
          share: weight,
          source: `${file.source}, row ${stations.row[station]}`,
          note: `${Math.round(km)} km away; the grid says ${Math.round(stations.gridMm[station]!)} mm there`,
        })),
      shiftNode(run),
      { ...grid, note: 'The drift: it sets the weights, which sum to 1.' },
    ],
  };
}

/** The stations' mean level carried by the grid: where the drift may not be carried. */
function levelOnly({ network }: Adjusting, grid: LedgerNode): Partial<LedgerNode> {
  return {
    formula: 'exp(level of the stations + ln(grid value) − level of the grid at them)',
    inputs: [
      {
        label: 'level of the stations',
        value: network.level,
        source: 'mean of ln(normal) + period shift',
      },
      {
        label: 'level of the grid at them',
        value: network.gridLevel,
        source: 'mean of ln(grid value)',
      },
      grid,
    ],
  };
}

const shiftNode = ({ settings, portfolio }: Run): LedgerNode =>
  constantNode(
    settings,
    portfolio.builtInStations ? 'built_in_shift' : 'own_shift',
    'period shift',
  );

const intervalFormulas: Readonly<Record<string, { formula: string; step: number }>> = {
  rain_low_mm: { formula: 'rain · exp(−z · s)', step: 1e-4 },
  rain_high_mm: { formula: 'rain · exp(z · s)', step: 1e-4 },
  p_rain_over_threshold: { formula: 'Φ((ln rain − ln T) / s)', step: 1e-6 },
};

/** Low, high or the probability over the threshold. */
export function rainIntervalNode(run: Run, b: number, column: string): LedgerNode {
  const over = column === 'p_rain_over_threshold';
  const value = rainCell(run, b, column);
  return {
    label: intervalLabels[column]!,
    value,
    ...(over ? {} : { unit: 'mm per year' }),
    ...intervalFormulas[column]!,
    ...(over
      ? { note: 'Never printed as certain: 0.01 stands for that or less, 0.99 for that or more.' }
      : {}),
    inputs: [
      rainNode(run, b),
      spreadNode(run, b),
      over
        ? constantNode(run.settings, 'rain_threshold_mm', 'T')
        : constantNode(run.settings, 'interval_z', 'z'),
    ],
  };
}

const intervalLabels: Readonly<Record<string, string>> = {
  rain_low_mm: 'rain, low',
  rain_high_mm: 'rain, high',
  p_rain_over_threshold: 'chance that the rain exceeds the threshold',
};

/** s, the standard deviation of ln rain. */
function spreadNode(run: Run, b: number): LedgerNode {
  const { fit } = run.making;
  const value = rainCell(run, b, 'rain_ln_sd');
  if (!fit?.on) return { ...constantNode(run.settings, 'grid_ln_sd', 's'), value };
  const { rho } = fit.settings;
  const variance = (Number(value) ** 2 - rho ** 2) / (fit.lambda ** 2 * fit.sill);
  const held = /drift only|level of the stations only/.test(`${rainCell(run, b, 'rain_flag')}`);
  if (held) {
    return {
      label: 's',
      value,
      source: `held by s_grid ${round(fit.gridSd)}: no station is near enough`,
    };
  }
  return {
    label: 's',
    value,
    step: 1e-6,
    formula: '√(λ² · σ² · v + ρ²)',
    inputs: [
      { label: 'λ', value: fit.lambda, source: 'errors of stations left out, 80 % point ÷ 1.2816' },
      { label: 'σ²', value: fit.sill, source: 'residual of the generalised least squares fit' },
      {
        label: 'v',
        value: variance,
        source: `kriging variance ÷ σ² at this place, range ${fit.shape.range} km, nugget ${fit.shape.nugget}`,
      },
      {
        label: 'ρ',
        value: rho,
        source: run.portfolio.builtInStations
          ? 'data/constants.csv, built_in_rho'
          : 'data/constants.csv, own_rho',
      },
    ],
  };
}

const round = (x: number): number => Math.round(x * 1e4) / 1e4;

/** The five equal nodes of the rain's distribution, as the draws of the load meet them. */
export function rainDraws(run: Run, b: number): LedgerNode[] {
  const { node_outer_z: outer, node_inner_z: inner } = run.settings;
  const [rain, s] = [rainNode(run, b), spreadNode(run, b)];
  return [-outer!, -inner!, 0, inner!, outer!].map((z, i) => ({
    label: `rain node ${i + 1} of 5`,
    value: rainCell(run, b, `rain_${i + 1}`),
    unit: 'mm per year',
    formula: 'rain · exp(z · s)',
    step: 1e-4,
    inputs: [
      rain,
      s,
      { label: 'z', value: z, source: 'standard normal quantile of the node (data/constants.csv)' },
    ],
  }));
}
