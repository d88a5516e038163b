import { referenceRows } from '../reference.ts';
import { type LedgerNode, tiers } from '../session-types.ts';
import { assemblyNode } from './assembly.ts';
import { needNode } from './need.ts';
import { buildingFact, constantNode, type Row, type Run, rowOf, rowsOf, wallFact } from './node.ts';
import { rainIntervalNode, rainNode } from './rain.ts';
import { loadNode, wettingNode } from './wetting.ts';

/** Which cell to derive: a column of a building's ranking row, or of one of its walls. */
export interface Cell {
  readonly b: number;
  readonly column: string;
  readonly wall?: number | undefined;
}

type Derivation = (run: Run, wall: Row, column: string) => LedgerNode | Promise<LedgerNode>;

const wallText = `
  SELECT w.*, n.* EXCLUDE (wall), t.drainage_state, x.index, x.index_low, x.index_high
  FROM wall w JOIN need n USING (wall) JOIN drainage_state t USING (wall) JOIN wall_index x USING (wall)
  WHERE wall = ?`;

/** How each column is derived; columns not named here are facts of the input or of the place. */
const derivations: Readonly<Record<string, Derivation>> = {
  rain_mm: (run, wall) => rainNode(run, wall.b as number),
  rain_low_mm: (run, wall, column) => rainIntervalNode(run, wall.b as number, column),
  rain_high_mm: (run, wall, column) => rainIntervalNode(run, wall.b as number, column),
  p_rain_over_threshold: (run, wall, column) => rainIntervalNode(run, wall.b as number, column),
  wetting_l_m2: wettingNode,
  w: loadNode,
  d: (run, wall) => assemblyNode(run, wall, 'd'),
  s: (run, wall) => assemblyNode(run, wall, 's'),
  drainage_state: stateNode,
  need_code_then: needNode,
  need_code_now: needNode,
  need_practice: needNode,
  gap_asked_mm: gapAskedNode,
  index: indexNode,
  index_low: quantileNode,
  index_high: quantileNode,
  tier: tierNode,
  tier_low: tierNode,
  tier_high: tierNode,
  index_spread: spreadNode,
  index_weighted_area_m2: weightedAreaNode,
};

/** The derivation of one cell. Throws on a column that neither the ranking nor the inputs have. */
export async function ledgerOf(run: Run, { b, column, wall }: Cell): Promise<LedgerNode> {
  const chosen =
    wall ?? (await rowOf(run.engine, 'SELECT wall FROM ranking WHERE b = ?', [b])).wall!;
  const row = await rowOf(run.engine, wallText, [chosen]);
  const derive = derivations[column];
  if (derive) return derive(run, row, column);
  if (wall !== undefined && column in wallColumns)
    return wallFact(run, row, column, row[wallColumns[column]!] ?? null);
  if (column in run.portfolio.buildings.cols) return buildingFact(run, b, column);
  throw new Error(`no derivation for ${column}`);
}

/** Facts of a wall as the views name them, with the column of table `wall` behind each. */
const wallColumns: Readonly<Record<string, string>> = {
  azimuth_deg: 'azimuth_deg',
  material: 'material',
  area_m2: 'area_used_m2',
  installed: 'installed_used',
  drainage: 'drainage_used',
  gap_mm: 'gap_used_mm',
  sheathing: 'sheathing',
  runoff: 'runoff',
};

const product = '100 · w^α · d^β · s^γ';

async function indexNode(run: Run, wall: Row): Promise<LedgerNode> {
  return {
    label: `index of ${wall.wall_id}`,
    value: wall.index ?? null,
    formula: product,
    step: 1e-6,
    inputs: [await loadNode(run, wall), await assemblyNode(run, wall, 'ds')],
    note: 'A screening index, 0-100: neither a probability nor an area of damage. The mean over the draws.',
  };
}

async function quantileNode(run: Run, wall: Row, column: string): Promise<LedgerNode> {
  const low = column === 'index_low';
  return {
    label: low ? 'index, low' : 'index, high',
    value: wall[column] ?? null,
    formula: `the smallest value whose draws of ${product} up to it weigh at least q`,
    step: 1e-6,
    inputs: [
      await loadNode(run, wall),
      await assemblyNode(run, wall, 'ds'),
      constantNode(run.settings, low ? 'interval_low' : 'interval_high', 'q'),
    ],
  };
}

const tierIndex = { tier: 'index', tier_low: 'index_low', tier_high: 'index_high' } as const;

async function tierNode(run: Run, wall: Row, column: string): Promise<LedgerNode> {
  const b = wall.b as number;
  const { position } = await rowOf(
    run.engine,
    `SELECT ${column} AS position FROM ranking WHERE b = ?`,
    [b],
  );
  const of = tierIndex[column as keyof typeof tierIndex];
  return {
    label: column.replace('_', ', '),
    value: tiers[position as number]!,
    formula: 'the highest tier whose threshold is reached; a reported leak sets at least Next look',
    inputs: [
      of === 'index' ? await indexNode(run, wall) : await quantileNode(run, wall, of),
      constantNode(run.settings, 'tier_first_look', tiers[0]),
      constantNode(run.settings, 'tier_next_look', tiers[1]),
      constantNode(run.settings, 'tier_keep_watch', tiers[2]),
      buildingFact(run, b, 'leak_history'),
    ],
    note: 'Thresholds are met by the index as exported, to two decimals.',
  };
}

function stateNode(run: Run, wall: Row): LedgerNode {
  const layer = referenceRows('drainage').find((row) => row.drainage === wall.drainage_used);
  return {
    label: 'drainage state',
    value: wall.drainage_state ?? null,
    formula: 'what is on record behind the cladding, against what code asks now or the least gap',
    inputs: [
      wallFact(run, wall, 'drainage', wall.drainage_used ?? null),
      {
        label: 'state of that layer',
        value: layer?.state || null,
        source: 'data/drainage.csv; blank where the gap decides',
      },
      wallFact(run, wall, 'gap_mm', wall.gap_used_mm ?? null, 'mm'),
      wallFact(run, wall, 'drainage_eff_pct', wall.drainage_eff_pct ?? null, '%'),
      wallFact(run, wall, 'material', wall.material ?? null),
      wallFact(run, wall, 'sheathing', wall.sheathing ?? null),
      {
        label: 'asked by code now',
        value: wall.code_gap_mm ?? null,
        unit: 'mm',
        source: 'data/rules/rules.csv, by code now',
      },
      {
        label: 'efficiency asked by code now',
        value: wall.code_efficiency_pct ?? null,
        unit: '%',
        source: 'data/rules/rules.csv, by code now',
      },
      constantNode(run.settings, 'least_gap_mm', 'least gap'),
    ],
  };
}

async function gapAskedNode(run: Run, wall: Row): Promise<LedgerNode> {
  const practice = `${wall.need_practice}`.startsWith('asks') && run.settings.practice_counts === 1;
  return {
    label: 'gap asked',
    value: wall.gap_asked_mm ?? null,
    unit: 'mm',
    formula: 'max of what is asked',
    inputs: [
      constantNode(run.settings, 'least_gap_mm', 'least gap'),
      {
        label: 'by code now',
        value: wall.code_gap_mm ?? null,
        unit: 'mm',
        inputs: [await needNode(run, wall, 'need_code_now')],
      },
      {
        label: 'by practice',
        value: practice ? run.settings.practice_gap_mm! : null,
        unit: 'mm',
        inputs: [
          await needNode(run, wall, 'need_practice'),
          constantNode(run.settings, 'practice_counts'),
        ],
      },
    ],
  };
}

const scoredText = `
  SELECT w.wall_id, w.area_used_m2, x.index FROM wall w JOIN wall_index x USING (wall)
  WHERE w.b = ? AND w.scored ORDER BY w.wall`;

/** Each scored wall with its index; `share` is its part of the wall area, or an equal one where an area is missing. */
async function perWall(run: Run, wall: Row): Promise<LedgerNode[]> {
  const walls = await rowsOf(run.engine, scoredText, [wall.b!]);
  const areas = walls.map(({ area_used_m2 }) =>
    area_used_m2 === null ? Number.NaN : Number(area_used_m2),
  );
  const total = areas.reduce((sum, area) => sum + area, 0);
  return walls.map((row, i) => ({
    label: `${row.wall_id}`,
    value: row.index ?? null,
    share: total > 0 ? areas[i]! / total : 1 / walls.length,
    source: `index of this wall; ${row.area_used_m2 === null ? 'area not on record' : `area ${row.area_used_m2} m²`}`,
  }));
}

async function spreadNode(run: Run, wall: Row): Promise<LedgerNode> {
  const text =
    'SELECT i.index_spread AS value FROM site LEFT JOIN building_index i USING (b) WHERE b = ?';
  const { value } = await rowOf(run.engine, text, [wall.b!]);
  return {
    label: 'index over all walls',
    value: value ?? null,
    formula: '100 · (1 − exp(Σ share · ln(1 − min(index, cap) / 100))), each term rounded to 1e-9',
    step: 1e-6,
    inputs: [...(await perWall(run, wall)), constantNode(run.settings, 'spread_cap', 'cap')],
    note: 'Stands beside the index and never sets the tier.',
  };
}

async function weightedAreaNode(run: Run, wall: Row): Promise<LedgerNode> {
  const text =
    'SELECT i.index_weighted_area_m2 AS value FROM site LEFT JOIN building_index i USING (b) WHERE b = ?';
  const { value } = await rowOf(run.engine, text, [wall.b!]);
  const walls = await rowsOf(run.engine, scoredText, [wall.b!]);
  return {
    label: 'index-weighted area',
    value: value ?? null,
    unit: 'm²',
    formula: 'Σ index / 100 · area',
    step: 1e-2,
    inputs: walls.map((row) => ({
      label: `${row.wall_id}`,
      value: row.index ?? null,
      inputs: [
        {
          label: 'area',
          value: row.area_used_m2 ?? null,
          unit: 'm²',
          source: 'recorded, or as filled in (see the walls)',
        },
      ],
    })),
    note: 'A sorting weight, not an area of damage.',
  };
}
