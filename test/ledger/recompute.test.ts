import { beforeAll, describe, expect, test } from 'vitest';
import { seeded } from '../../analysis/sample/random.ts';
import type { Analyst, LedgerNode } from '../../analysis/session-types.ts';
import type { SettingsChanges } from '../../analysis/settings.ts';
import { generateDemo } from '../../data/demo/generate.ts';
import { between, pick } from '../../data/demo/random.ts';
import { inputs as portfolio, session } from '../session/open.ts';
import { formulas, type Inputs, type Value } from './formulas.ts';

const buildingColumns =
  `index index_low index_high tier tier_low tier_high wetting_l_m2 rain_mm rain_low_mm rain_high_mm
  p_rain_over_threshold drainage_state need_code_then need_code_now need_practice index_spread
  index_weighted_area_m2`.split(/\s+/);
const wallColumns = [
  'index',
  'index_low',
  'wetting_l_m2',
  'w',
  'd',
  's',
  'gap_asked_mm',
  'need_code_now',
];

/** Decimals of the table's cells, where they are fewer than the ledger's. */
const shownTo: Readonly<Record<string, number>> = {
  index: 2,
  index_low: 2,
  index_high: 2,
  index_spread: 2,
  wetting_l_m2: 2,
  rain_mm: 1,
  rain_low_mm: 1,
  rain_high_mm: 1,
  p_rain_over_threshold: 2,
  index_weighted_area_m2: 2,
};

/**
 * Whether the stated value is the recomputed one at 1e-9 relative, after the rounding that the node declares. A value
 * that lies half-way between two steps may have been rounded either way: decimal halves are not exact in binary.
 */
function agrees(value: Value, stated: Value, step: number | undefined): boolean {
  if (typeof value !== 'number' || typeof stated !== 'number') return value === stated;
  const slack = 1e-9 * Math.max(1, Math.abs(stated));
  if (step === undefined) return Math.abs(value - stated) <= slack;
  const onStep = Math.abs(Math.round(stated / step) * step - stated) <= slack;
  return onStep && Math.abs(value - stated) <= step / 2 + slack;
}

let nodesSeen = 0;

/** The value of a node from its leaves alone; every node on the way must state the same. */
function recomputed(node: LedgerNode, path: string): Value {
  const below = node.inputs ?? [];
  if (!node.formula) {
    const leaf = node.source ?? node.note ?? (below.length > 0 ? 'made of what stands below' : '');
    expect(leaf, `${path}: a leaf names its source`).toBeTruthy();
    for (const input of below) recomputed(input, `${path} > ${input.label}`);
    return node.value;
  }
  const values = below.map((input) => recomputed(input, `${path} > ${input.label}`));
  const formula = formulas[node.formula];
  expect(formula, `${path}: no proof of "${node.formula}"`).toBeDefined();
  const at = (label: string): number => below.findIndex((input) => input.label === label);
  const of = (label: string): Value => {
    expect(at(label), `${path}: no input "${label}"`).toBeGreaterThanOrEqual(0);
    return values[at(label)]!;
  };
  const inputs: Inputs = { nodes: below, values, of, num: (label) => of(label) as number };
  const value = node.value === null ? null : formula!(inputs, node);
  nodesSeen += 1;
  const said = `${path}: ${value}, not ${node.value} (${node.formula})`;
  expect(agrees(value, node.value, node.step), said).toBe(true);
  return node.value;
}

function cellOf(value: Value, column: string): Value {
  const decimals = shownTo[column];
  if (typeof value !== 'number' || decimals === undefined) return value;
  const shown = Math.round(value * 10 ** decimals) / 10 ** decimals;
  return column === 'p_rain_over_threshold' ? Math.min(0.99, Math.max(0.01, shown)) : shown;
}

async function check(analyst: Analyst, cells: number, seed: number): Promise<void> {
  const random = seeded(seed);
  const { n } = await analyst.frame();
  for (let i = 0; i < cells; i++) {
    const b = between(random, 0, n - 1);
    const { row, walls } = await analyst.building(b);
    const wall = pick(
      random,
      walls.filter(({ wall: ordinal }) => typeof ordinal === 'number'),
    );
    const ofWall = i % 4 === 3;
    const column = pick(random, ofWall ? wallColumns : buildingColumns);
    const node = await analyst.ledger(b, column, ofWall ? (wall.wall as number) : undefined);
    const path = `${row.building_id} ${ofWall ? `${wall.wall_id} ` : ''}${column}`;
    const value = recomputed(node, path);
    const shown = (ofWall ? wall : row)[column] ?? null;
    if (typeof shown === 'number') expect(cellOf(value, column), path).toBeCloseTo(shown, 6);
    else expect(value, path).toBe(shown);
  }
}

describe('every figure can be rebuilt from its ledger alone', () => {
  const { buildingsCsv, wallsCsv } = generateDemo({});
  let analyst: Analyst;
  beforeAll(async () => {
    analyst = await session();
    await analyst.open(portfolio(buildingsCsv, wallsCsv));
  });

  test('200 random cells of the example, leaf to root', async () => {
    await check(analyst, 200, 20261125);
    expect(nodesSeen).toBeGreaterThan(5000);
  }, 120_000);

  test('60 more under other settings and an edition in force', async () => {
    const changes: SettingsChanges = {
      constants: {
        weight_load: 0.5,
        weight_deficiency: 2,
        weight_susceptibility: 1.5,
        age_counts: 0,
        practice_counts: 0,
      },
      editions: [{ region: 'WA', code: 'IBC', edition: 2009, from_year: 2010 }],
    };
    await analyst.rescore(changes);
    await check(analyst, 60, 7);
  }, 120_000);
});
