import { referenceRows } from '../reference.ts';
import type { LedgerNode } from '../session-types.ts';
import { constantNode, type Row, type Run, rowOf, rowsOf, sharesOf, wallFact } from './node.ts';

const drawText = `
  SELECT d.material_drawn, d.installed_drawn, d.sheathing_drawn, d.drainage_drawn, d.adequacy, d.d, d.s, d.ds,
    sum(d.weight) AS weight
  FROM wall_case c JOIN assembly_draw d USING (assembly_case) WHERE c.wall = ? GROUP BY ALL ORDER BY weight DESC, ALL`;

const label = (id: string, key: string, value: unknown): string =>
  referenceRows(id).find((row) => row[key] === value)?.label ?? `${value}`;

/** What is behind the cladding: the mean over the draws of d^β · s^γ, or of d or s alone. */
export async function assemblyNode(
  run: Run,
  wall: Row,
  part: 'ds' | 'd' | 's',
): Promise<LedgerNode> {
  const draws = await rowsOf(
    run.engine,
    drawText.replace('weight DESC, ALL', 'weight DESC, ds, d, s'),
    [wall.wall!],
  );
  const row = await rowOf(
    run.engine,
    `SELECT ${part}_mean AS mean FROM wall_index WHERE wall = ?`,
    [wall.wall!],
  );
  const shares = sharesOf(draws);
  return {
    label: labels[part],
    value: row.mean ?? null,
    formula: formulas[part],
    inputs: [
      ...draws.map((draw, i) => drawNode(run, draw, part, shares[i]!)),
      ...facts(run, wall),
      constantNode(run.settings, 'weight_deficiency', 'β'),
      constantNode(run.settings, 'weight_susceptibility', 'γ'),
    ],
  };
}

const labels = { ds: 'd · s', d: 'drainage deficiency d', s: 'susceptibility s' } as const;
const formulas = {
  ds: 'mean over the draws of d^β · s^γ',
  d: 'mean over the draws of max(floor, 1 − adequacy)',
  s: 'mean over the draws of sheathing susceptibility · age factor',
} as const;

function drawNode({ settings }: Run, draw: Row, part: 'ds' | 'd' | 's', share: number): LedgerNode {
  const sheathing = label('sheathing', 'sheathing', draw.sheathing_drawn);
  const layer = label('drainage', 'drainage', draw.drainage_drawn);
  const material = label('materials', 'material', draw.material_drawn);
  const d: LedgerNode = {
    label: 'd',
    value: draw.d!,
    formula: 'max(floor, 1 − adequacy)',
    inputs: [
      {
        label: 'adequacy',
        value: draw.adequacy!,
        source: 'gap recorded ÷ gap asked, else data/priors/adequacy.csv',
      },
      constantNode(settings, 'deficiency_floor', 'floor'),
    ],
  };
  const s: LedgerNode = {
    label: 's',
    value: draw.s!,
    formula: 'susceptibility · (1 − a + a · (1 − exp(−age / T)))',
    inputs: [
      {
        label: 'susceptibility',
        value: susceptibility(draw),
        source: 'data/sheathing.csv: judgement',
      },
      {
        label: 'installed',
        value: draw.installed_drawn!,
        source: 'on record, else data/priors/installed.csv',
      },
      constantNode(settings, 'as_of'),
      constantNode(settings, 'age_share', 'a'),
      constantNode(settings, 'age_constant_yr', 'T'),
      constantNode(settings, 'age_cap_yr'),
    ],
  };
  const inputs = { ds: [d, s], d: d.inputs!, s: s.inputs! }[part];
  const formula = { ds: 'd^β · s^γ', d: d.formula!, s: s.formula! }[part];
  return {
    label: `${material} of ${draw.installed_drawn}, ${layer}, ${sheathing}`,
    value: draw[part]!,
    formula,
    share,
    inputs,
  };
}

const susceptibility = (draw: Row): number =>
  Number(
    referenceRows('sheathing').find((row) => row.sheathing === draw.sheathing_drawn)!
      .susceptibility,
  );

/** The facts behind the draws, as recorded; a blank one is drawn over its prior. */
function facts(run: Run, wall: Row): LedgerNode[] {
  const recorded = [
    wallFact(run, wall, 'material', wall.material ?? null),
    wallFact(run, wall, 'drainage', wall.drainage_used ?? null),
    wallFact(run, wall, 'gap_mm', wall.gap_used_mm ?? null, 'mm'),
    wallFact(run, wall, 'sheathing', wall.sheathing ?? null),
    installed(run, wall),
    {
      label: 'gap asked',
      value: wall.gap_asked_mm ?? null,
      unit: 'mm',
      source: 'the larger of least gap, code now, practice',
    },
  ];
  return recorded.map((fact) =>
    fact.value === null ? { ...fact, note: 'drawn over its prior' } : fact,
  );
}

function installed(run: Run, wall: Row): LedgerNode {
  const fact = wallFact(run, wall, 'installed', wall.installed_used ?? null);
  if (wall.installed_from === 'wall' || wall.installed_from === null) return fact;
  const column = wall.installed_from === 'reclad' ? 'reclad_year' : 'year_built';
  return {
    ...fact,
    source: `${run.portfolio.files.buildings}, ${column}`,
    note: `taken from ${column}`,
  };
}
