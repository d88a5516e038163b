import { referenceRows } from '../reference.ts';
import type { LedgerNode } from '../session-types.ts';
import { constantNode, type Row, type Run, rowOf, rowsOf, sharesOf, wallFact } from './node.ts';

const drawText = `
  SELECT d.material_drawn, d.installed_drawn, d.sheathing_drawn, d.drainage_drawn, d.adequacy, d.d, d.s, d.ds,
    sum(d.weight) AS weight
  FROM wall_case c JOIN assembly_draw d USING (assembly_case) WHERE c.wall = ?
  GROUP BY ALL ORDER BY weight DESC, ds, d, s, material_drawn, installed_drawn, sheathing_drawn, drainage_drawn`;

const row = (id: string, key: string, value: unknown) =>
  referenceRows(id).find((candidate) => candidate[key] === value);
const label = (id: string, key: string, value: unknown): string =>
  row(id, key, value)?.label ?? `${value}`;

type Part = 'ds' | 'd' | 's';

const labels: Readonly<Record<Part, string>> = {
  ds: 'd^β · s^γ',
  d: 'drainage deficiency d',
  s: 'susceptibility s',
};

/** What is behind the cladding: the mean over the draws of d^β · s^γ, or of d or s alone. */
export async function assemblyNode(run: Run, wall: Row, part: Part): Promise<LedgerNode> {
  const draws = await rowsOf(run.engine, drawText, [wall.wall!]);
  const text = `SELECT ${part}_mean AS mean FROM wall_index WHERE wall = ?`;
  const { mean } = await rowOf(run.engine, text, [wall.wall!]);
  const shares = sharesOf(draws);
  return {
    label: labels[part],
    value: mean ?? null,
    formula: 'Σ share · draw',
    step: 1e-6,
    inputs: [
      ...draws.map((draw, i) => drawNode(run, wall, draw, part, shares[i]!)),
      ...facts(run, wall),
    ],
  };
}

function drawNode(run: Run, wall: Row, draw: Row, part: Part, share: number): LedgerNode {
  const material = label('materials', 'material', draw.material_drawn);
  const layer = label('drainage', 'drainage', draw.drainage_drawn);
  const sheathing = label('sheathing', 'sheathing', draw.sheathing_drawn);
  return {
    ...parts[part](run, wall, draw),
    label: `${material} of ${draw.installed_drawn}, ${layer}, ${sheathing}`,
    share,
  };
}

type PartNode = (run: Run, wall: Row, draw: Row) => LedgerNode;

const parts: Readonly<Record<Part, PartNode>> = {
  ds: productNode,
  d: deficiencyNode,
  s: susceptibilityNode,
};

function productNode(run: Run, wall: Row, draw: Row): LedgerNode {
  return {
    label: labels.ds,
    value: draw.ds!,
    formula: 'd^β · s^γ',
    step: 1e-6,
    inputs: [
      deficiencyNode(run, wall, draw),
      constantNode(run.settings, 'weight_deficiency', 'β'),
      susceptibilityNode(run, wall, draw),
      constantNode(run.settings, 'weight_susceptibility', 'γ'),
    ],
  };
}

function deficiencyNode(run: Run, wall: Row, draw: Row): LedgerNode {
  const group = row('materials', 'material', draw.material_drawn)?.group;
  const solid = row('sheathing', 'sheathing', draw.sheathing_drawn)?.solid === 'yes';
  const direct = solid && (group === 'plaster' || group === 'adhered');
  return {
    label: 'd',
    value: draw.d!,
    formula: direct ? 'min(solid backing, max(floor, 1 − adequacy))' : 'max(floor, 1 − adequacy)',
    step: 1e-6,
    inputs: [
      adequacyNode(run, wall, draw),
      constantNode(run.settings, 'deficiency_floor', 'floor'),
      ...(direct ? [constantNode(run.settings, 'solid_backing_deficiency', 'solid backing')] : []),
    ],
  };
}

/** The gap on record against the gap asked; else a value drawn for the layer. */
function adequacyNode(run: Run, wall: Row, draw: Row): LedgerNode {
  const stated = Number(wall.drainage_eff_pct ?? 0) >= run.settings.stated_efficiency_pct!;
  const base = wall.gap_used_mm === null ? drawnAdequacy(draw) : gapAdequacy(run, wall, draw);
  if (!stated) return base;
  return {
    label: 'adequacy',
    value: draw.adequacy!,
    formula: 'max(of the gap, of the stated efficiency)',
    inputs: [
      { ...base, label: 'of the gap' },
      constantNode(run.settings, 'stated_efficiency_adequacy', 'of the stated efficiency'),
    ],
  };
}

const drawnAdequacy = (draw: Row): LedgerNode => ({
  label: 'adequacy',
  value: draw.adequacy!,
  source: `data/priors/adequacy.csv, ${draw.drainage_drawn}: judgement`,
});

function gapAdequacy(run: Run, wall: Row, draw: Row): LedgerNode {
  const sheets = row('drainage', 'drainage', draw.drainage_drawn)?.sheets;
  const none = sheets !== undefined && sheets !== '' && Number(sheets) < 2;
  const least: LedgerNode = none
    ? { label: 'least', value: 0, source: 'none or a single sheet: no floor' }
    : constantNode(run.settings, 'adequacy_floor', 'least');
  const [gap, asked] = [wall.gap_used_mm as number, wall.gap_asked_mm as number];
  return {
    label: 'adequacy',
    value: Math.max(least.value as number, Math.min(1, gap / asked)),
    formula: 'max(least, min(1, gap / gap asked))',
    inputs: [
      least,
      wallFact(run, wall, 'gap_mm', gap, 'mm'),
      { label: 'gap asked', value: asked, unit: 'mm', source: 'see gap asked' },
    ],
  };
}

function susceptibilityNode({ settings }: Run, _: Row, draw: Row): LedgerNode {
  const susceptibility: LedgerNode = {
    label: 'susceptibility',
    value: Number(row('sheathing', 'sheathing', draw.sheathing_drawn)!.susceptibility),
    source: 'data/sheathing.csv: judgement',
  };
  const common = { label: 's', value: draw.s!, step: 1e-6 };
  if (settings.age_counts !== 1) {
    return { ...common, formula: 'susceptibility', inputs: [susceptibility] };
  }
  return {
    ...common,
    formula: 'susceptibility · (1 − a + a · (1 − exp(−min(max(as of − installed, 0), cap) / T)))',
    inputs: [
      susceptibility,
      constantNode(settings, 'age_share', 'a'),
      constantNode(settings, 'as_of', 'as of'),
      {
        label: 'installed',
        value: draw.installed_drawn!,
        source: 'on record, else data/priors/installed.csv',
      },
      constantNode(settings, 'age_cap_yr', 'cap'),
      constantNode(settings, 'age_constant_yr', 'T'),
    ],
  };
}

/** The facts behind the draws, as recorded; a blank one is drawn over its prior. */
function facts(run: Run, wall: Row): LedgerNode[] {
  const recorded = [
    wallFact(run, wall, 'material', wall.material ?? null),
    wallFact(run, wall, 'drainage', wall.drainage_used ?? null),
    wallFact(run, wall, 'gap_mm', wall.gap_used_mm ?? null, 'mm'),
    wallFact(run, wall, 'sheathing', wall.sheathing ?? null),
    installed(run, wall),
  ];
  return recorded.map((fact) =>
    fact.value === null ? { ...fact, note: 'drawn over its prior' } : fact,
  );
}

function installed(run: Run, wall: Row): LedgerNode {
  const fact = wallFact(run, wall, 'installed', wall.installed_used ?? null);
  if (wall.installed_from === 'wall' || wall.installed_from === null) return fact;
  const column = wall.installed_from === 'reclad' ? 'reclad_year' : 'year_built';
  const source = `${run.portfolio.inputs.buildings.name}, ${column}`;
  return { ...fact, source, note: `taken from ${column}` };
}
