import { referenceRows } from '../reference.ts';
import type { LedgerNode } from '../session-types.ts';
import {
  buildingFact,
  constantNode,
  type Row,
  type Run,
  rowOf,
  rowsOf,
  sharesOf,
  wallFact,
} from './node.ts';
import { rainDraws, rainNode } from './rain.ts';

const drawText = `
  SELECT d.f_e, d.f_d, d.kappa, d.wind_m_s, d.l_m2_per_mm, sum(d.weight) AS weight
  FROM wall_load l JOIN load_draw d USING (load_case) WHERE l.wall = ? GROUP BY ALL ORDER BY ALL`;

/** Wetting of a wall: 0.2 · F_E · F_D · κ · U · rain, the mean over what is not on record. */
export async function wettingNode(run: Run, wall: Row): Promise<LedgerNode> {
  const draws = await rowsOf(run.engine, drawText, [wall.wall!]);
  const { wetting_l_m2 } = await rowOf(
    run.engine,
    'SELECT wetting_l_m2 FROM wall_index WHERE wall = ?',
    [wall.wall!],
  );
  // The user's own prior says so of itself.
  const prior = await rowOf(run.engine, 'SELECT any_value(source) AS source FROM prior_wind', []);
  const shares = sharesOf(draws);
  const mean = draws.reduce((sum, draw, i) => sum + shares[i]! * (draw.l_m2_per_mm as number), 0);
  return {
    label: 'wetting',
    value: wetting_l_m2 ?? null,
    unit: 'L/m² per year',
    formula: 'rain · coefficient',
    step: 1e-5,
    inputs: [
      rainNode(run, wall.b as number),
      {
        label: 'coefficient',
        value: Math.round(mean * 1e9) / 1e9,
        unit: 'L/m² per mm of rain',
        formula: 'Σ share · draw',
        step: 1e-9,
        inputs: [
          ...draws.map((draw, i) => coefficientNode(run, draw, shares[i]!, `${prior.source}`)),
          ...exposureFacts(run, wall),
        ],
      },
    ],
    source: 'after ASHRAE Standard 160',
  };
}

function coefficientNode(run: Run, draw: Row, share: number, windSaid: string): LedgerNode {
  const { f_e, f_d, kappa, wind_m_s } = draw;
  const record = run.portfolio.weather?.file;
  return {
    label: drawLabel(run, draw),
    value: draw.l_m2_per_mm!,
    unit: 'L/m² per mm of rain',
    formula: '0.2 · F_E · F_D · κ · U',
    step: 1e-9,
    share,
    inputs: [
      constantNode(run.settings, 'rain_wetting_coefficient', '0.2'),
      { label: 'F_E', value: f_e!, source: tableSource('exposure_factor') },
      { label: 'F_D', value: f_d!, source: tableSource('deposition_factor') },
      record
        ? {
            label: 'κ',
            value: kappa!,
            source: `${record}: rain-weighted share of the wind that this direction meets`,
          }
        : constantNode(run.settings, 'kappa_without_record', 'κ'),
      {
        label: 'U',
        value: wind_m_s!,
        unit: 'm/s',
        source: record
          ? `${record}: mean wind during rain`
          : `data/ prior_wind: ${windSaid}; no wind record`,
      },
    ],
  };
}

const drawLabel = ({ portfolio }: Run, { f_e, f_d, kappa, wind_m_s }: Row): string =>
  `F_E ${f_e}, F_D ${f_d}, ${portfolio.weather ? `κ ${kappa}, ` : ''}U ${wind_m_s} m/s`;

const tableSource = (id: string): string => `data/ ${id}: ${referenceRows(id)[0]!.source}`;

/** The facts that choose F_E and F_D; a blank one is drawn over its prior. */
function exposureFacts(run: Run, wall: Row): LedgerNode[] {
  const b = wall.b as number;
  return [
    buildingFact(run, b, 'terrain'),
    buildingFact(run, b, 'height_m', 'm'),
    buildingFact(run, b, 'storeys'),
    buildingFact(run, b, 'roof'),
    wallFact(run, wall, 'runoff', wall.runoff ?? null),
    ...(run.portfolio.weather
      ? [wallFact(run, wall, 'azimuth_deg', wall.azimuth_deg ?? null, '°')]
      : []),
  ].map((fact) => (fact.value === null ? { ...fact, note: 'drawn over its prior' } : fact));
}

/** Load factor w^α: the mean over the draws and the five nodes of the rain. */
export async function loadNode(run: Run, wall: Row): Promise<LedgerNode> {
  const draws = await rowsOf(run.engine, drawText, [wall.wall!]);
  const { w_mean } = await rowOf(run.engine, 'SELECT w_mean FROM wall_index WHERE wall = ?', [
    wall.wall!,
  ]);
  const rains = w_mean === null ? [] : rainDraws(run, wall.b as number);
  return {
    label: 'w^α',
    value: w_mean ?? null,
    formula: 'mean over the rain nodes',
    step: 1e-6,
    inputs: rains.map((rain) => loadAtRain(run, draws, rain)),
    source: 'w = wetting / (wetting + half-load)',
  };
}

function loadAtRain(run: Run, draws: readonly Row[], rain: LedgerNode): LedgerNode {
  const shares = sharesOf(draws);
  const loads = draws.map((draw, i) => drawnLoad(run, draw, shares[i]!, rain.value as number));
  return {
    label: `w^α at ${rain.label}`,
    value: loads.reduce((sum, { value, share }) => sum + share! * (value as number), 0),
    formula: 'Σ share · draw',
    inputs: [...loads, rain],
  };
}

function drawnLoad(run: Run, draw: Row, share: number, rainMm: number): LedgerNode {
  const { half_load_l_m2: halfLoad, weight_load: alpha } = run.settings;
  const coefficient = draw.l_m2_per_mm as number;
  const wetting = Math.round(coefficient * rainMm * 1e5) / 1e5;
  const w = Math.round((wetting / (wetting + halfLoad!)) * 1e6) / 1e6;
  return {
    label: drawLabel(run, draw),
    value: Math.round(w ** alpha! * 1e6) / 1e6,
    formula: 'w^α',
    step: 1e-6,
    share,
    inputs: [
      {
        label: 'w',
        value: w,
        formula: 'wetting / (wetting + half-load)',
        step: 1e-6,
        inputs: [
          {
            label: 'wetting',
            value: wetting,
            unit: 'L/m² per year',
            formula: 'coefficient · rain',
            step: 1e-5,
            inputs: [
              { label: 'coefficient', value: coefficient, source: 'of this draw: see wetting' },
              { label: 'rain', value: rainMm, unit: 'mm per year', source: 'this rain node' },
            ],
          },
          constantNode(run.settings, 'half_load_l_m2', 'half-load'),
        ],
      },
      constantNode(run.settings, 'weight_load', 'α'),
    ],
  };
}
