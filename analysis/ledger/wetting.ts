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
import { rainNode } from './rain.ts';

const drawText = `
  SELECT d.f_e, d.f_d, d.wind_m_s, d.l_m2_per_mm, d.weight
  FROM wall_load l JOIN load_draw d USING (load_case) WHERE l.wall = ? ORDER BY ALL`;

/** Wetting of a wall: 0.2 · F_E · F_D · κ · U · rain, the mean over what is not on record. */
export async function wettingNode(run: Run, wall: Row): Promise<LedgerNode> {
  const draws = await rowsOf(run.engine, drawText, [wall.wall!]);
  const { wetting_l_m2 } = await rowOf(
    run.engine,
    'SELECT wetting_l_m2 FROM wall_index WHERE wall = ?',
    [wall.wall!],
  );
  const shares = sharesOf(draws);
  return {
    label: 'wetting',
    value: wetting_l_m2 ?? null,
    unit: 'L/m² per year',
    formula: 'rain · mean over the draws of 0.2 · F_E · F_D · κ · U',
    inputs: [
      rainNode(run, wall.b as number),
      ...draws.map((draw, i) => coefficientNode(run, draw, shares[i]!)),
      ...exposureFacts(run, wall),
    ],
    source: 'after ASHRAE Standard 160',
  };
}

function coefficientNode({ settings }: Run, draw: Row, share: number): LedgerNode {
  const { f_e, f_d, wind_m_s } = draw;
  return {
    label: `F_E ${f_e}, F_D ${f_d}, U ${wind_m_s} m/s`,
    value: draw.l_m2_per_mm!,
    unit: 'L/m² per mm of rain',
    formula: '0.2 · F_E · F_D · κ · U',
    share,
    inputs: [
      constantNode(settings, 'rain_wetting_coefficient', '0.2'),
      { label: 'F_E', value: f_e!, source: tableSource('exposure_factor') },
      { label: 'F_D', value: f_d!, source: tableSource('deposition_factor') },
      constantNode(settings, 'kappa_without_record', 'κ'),
      {
        label: 'U',
        value: wind_m_s!,
        unit: 'm/s',
        source: `${tableSource('prior_wind')}; no wind record`,
      },
    ],
  };
}

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
  ].map((fact) => (fact.value === null ? { ...fact, note: 'drawn over its prior' } : fact));
}

/** Load factor w^α: the mean over the same draws. */
export async function loadNode(run: Run, wall: Row): Promise<LedgerNode> {
  const draws = await rowsOf(run.engine, drawText, [wall.wall!]);
  const { w_mean } = await rowOf(run.engine, 'SELECT w_mean FROM wall_index WHERE wall = ?', [
    wall.wall!,
  ]);
  const rain = rainNode(run, wall.b as number);
  const shares = sharesOf(draws);
  return {
    label: 'w',
    value: w_mean ?? null,
    formula: 'mean over the draws of (wetting / (wetting + half-load))^α',
    inputs: [
      ...draws.map((draw, i) => drawnLoad(run, draw, shares[i]!, rain.value as number | null)),
      rain,
      constantNode(run.settings, 'half_load_l_m2', 'half-load'),
      constantNode(run.settings, 'weight_load', 'α'),
    ],
  };
}

function drawnLoad(run: Run, draw: Row, share: number, rainMm: number | null): LedgerNode {
  const coefficient = coefficientNode(run, draw, share);
  const wetting =
    rainMm === null ? null : Math.round((coefficient.value as number) * rainMm * 1e5) / 1e5;
  const w = wetting === null ? null : wetting / (wetting + run.settings.half_load_l_m2!);
  return {
    label: `w where ${coefficient.label}`,
    value: w === null ? null : Math.round(w * 1e6) / 1e6,
    formula: 'wetting / (wetting + half-load)',
    share,
    inputs: [
      {
        label: 'wetting',
        value: wetting,
        unit: 'L/m² per year',
        formula: 'coefficient · rain',
        inputs: [coefficient],
      },
    ],
  };
}
