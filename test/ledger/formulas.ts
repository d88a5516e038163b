import { referenceRows } from '../../analysis/reference.ts';
import type { LedgerNode } from '../../analysis/session-types.ts';

export type Value = number | string | null;

/** The inputs of a node, each with the value recomputed for it. */
export interface Inputs {
  readonly nodes: readonly LedgerNode[];
  readonly values: readonly Value[];
  /** Value of the input of this label; throws where there is none. */
  readonly of: (label: string) => Value;
  readonly num: (label: string) => number;
}

type Formula = (inputs: Inputs, node: LedgerNode) => Value;

const weighted = ({ nodes, values }: Inputs, f: (x: number) => number = (x) => x): number =>
  nodes.reduce(
    (sum, { share }, i) => (share === undefined ? sum : sum + share * f(values[i] as number)),
    0,
  );

/** Φ by Simpson's rule on the density: independent of the approximation that the product uses. */
function normalBelow(x: number): number {
  const n = 4000;
  const h = x / n;
  const density = (t: number) => Math.exp((-t * t) / 2) / Math.sqrt(2 * Math.PI);
  let sum = density(0) + density(x);
  for (let i = 1; i < n; i++) sum += (i % 2 ? 4 : 2) * density(i * h);
  return 0.5 + (sum * h) / 3;
}

/** Draws of one factor: values with weights that sum to 1. */
const draws = (nodes: readonly LedgerNode[]): [number, number][] =>
  nodes
    .filter(({ share }) => share !== undefined)
    .map(({ value, share }) => [value as number, share!]);

/** The smallest product whose cumulative weight reaches q, by forming every product. */
function quantile({ nodes, num }: Inputs): number {
  const [load, assembly] = nodes as [LedgerNode, LedgerNode];
  const behind = draws(assembly.inputs!);
  const rains = load.inputs!;
  const products = rains.flatMap(({ inputs }) =>
    draws(inputs!).flatMap(([w, p]) =>
      behind.map(([ds, r]) => [w * ds, (p * r) / rains.length] as const),
    ),
  );
  products.sort(([a], [b]) => a - b);
  let sum = 0;
  for (const [value, weight] of products) {
    sum += weight;
    // Shares are quotients; a sum of thousands of them is exact to some 1e-12.
    if (sum >= num('q') - 1e-10) return 100 * value;
  }
  throw new Error('the weights do not reach q');
}

const tierNames = ['First look', 'Next look', 'Keep watch'];

function tier({ values, num, of }: Inputs): string {
  if (values[0] === null) return of('leak_history') === 'reported' ? 'Next look' : 'Not scored';
  const index = Math.round((values[0] as number) * 100) / 100;
  const found = tierNames.find((name) => index >= num(name)) ?? 'No flag';
  const low = found === 'Keep watch' || found === 'No flag';
  return low && of('leak_history') === 'reported' ? 'Next look' : found;
}

const missing = (value: Value): string | undefined => /^cannot tell: (.*)$/.exec(`${value}`)?.[1];

/** Kleene's AND over conditions in words. */
function rule({ values }: Inputs): string {
  if (values.includes('no')) return 'does not ask';
  const unknown = values.map(missing).find((fact) => fact !== undefined);
  return unknown ? `cannot tell: ${unknown}` : 'asks';
}

/** Kleene's OR over the rules of an edition. */
function edition({ values }: Inputs): string {
  if (values.length === 0) return 'cannot tell: which code was in force';
  if (values.includes('asks')) return 'asks';
  const unknown = values
    .map(missing)
    .filter((fact) => fact !== undefined)
    .sort()[0];
  return unknown ? `cannot tell: ${unknown}` : 'does not ask';
}

const demand = (id: string): number => {
  const row = referenceRows('rules').find(({ rule_id }) => rule_id === id)!;
  return (
    Number(row.asks_gap_mm || 0) * 1e4 + Number(row.asks_efficiency_pct || 0) * 10 + id.length / 1e3
  );
};

/** Of the rules that ask in an edition the most demanding is named. */
const named = (edition: LedgerNode): string =>
  edition
    .inputs!.filter(({ value }) => value === 'asks')
    .map(({ label }) => label)
    .sort((a, b) => demand(b) - demand(a))[0]!;

function need(then: boolean): Formula {
  return ({ nodes, values }, node) => {
    const installed = values.at(-1);
    const editions = nodes.slice(0, -1);
    const answers = values.slice(0, -1);
    const oneOf = (...allowed: string[]) =>
      allowed.map((fact) => `cannot tell: ${fact}`).find((text) => text === node.value) ??
      allowed[0]!;
    // Neither the country nor which of the two codes applies stands in the tree: either fact may be the missing one.
    if (then && installed === null) return oneOf('installed', 'region');
    if (editions.length === 0) return oneOf('region', 'which code was in force');
    if (then && editions.some(({ inputs }) => inputs!.length === 0)) {
      return 'cannot tell: which code was in force';
    }
    if (answers.every((answer) => answer === 'asks')) {
      return `asks: ${[...new Set(editions.map(named))].sort().join(' or ')}`;
    }
    if (answers.every((answer) => answer === 'does not ask')) return 'does not ask';
    const unknown = answers
      .map(missing)
      .filter((fact) => fact !== undefined)
      .sort()[0];
    return unknown ? `cannot tell: ${unknown}` : oneOf('use', 'storeys', 'which code was in force');
  };
}

function state({ of }: Inputs): string {
  const [gap, pct, layer] = [of('gap_mm'), of('drainage_eff_pct'), of('state of that layer')];
  if (layer === 'not applicable') return layer;
  const asked = Math.max(Number(of('asked by code now') ?? 0), Number(of('least gap')));
  const byGap = gap === null ? 0 : Math.min(1, Number(gap) / asked);
  const tested = pct !== null && Number(pct) >= 90 && of('efficiency asked by code now') !== null;
  const byNature = of('material') === 'eifs_drained' && pct === null && gap === null;
  if (Math.max(byGap, tested || byNature ? 1 : 0) >= 0.999) return 'provided';
  const solid = of('sheathing') === 'masonry' || of('sheathing') === 'concrete';
  const plaster = ['stucco', 'one_coat_stucco', 'adhered_stone'].includes(`${of('material')}`);
  if (solid && plaster) return 'not applicable';
  if (of('drainage') === null && gap === null) return 'no record';
  return layer === null ? 'marginal' : `${layer}`;
}

const product = '100 · w^α · d^β · s^γ';
const needText = (when: string) =>
  `asks where every edition asks; does not ask where none may; else cannot tell (${when})`;

/** Every formula that a ledger may carry, as plain arithmetic on the values below it. */
export const formulas: Readonly<Record<string, Formula>> = {
  'grid value': ({ of }) => of('grid value'),
  'Σ share · node': (inputs) => weighted(inputs),
  'Σ share · draw': (inputs) => weighted(inputs),
  'exp(Σ share · ln(normal) + period shift)': (inputs) =>
    Math.exp(weighted(inputs, Math.log) + inputs.num('period shift')),
  'exp(level of the stations + ln(grid value) − level of the grid at them)': ({ num }) =>
    Math.exp(
      num('level of the stations') + Math.log(num('grid value')) - num('level of the grid at them'),
    ),
  'rain · exp(−z · s)': ({ num }) => num('rain') * Math.exp(-num('z') * num('s')),
  'rain · exp(z · s)': ({ num }) => num('rain') * Math.exp(num('z') * num('s')),
  'Φ((ln rain − ln T) / s)': ({ num }) => normalBelow(Math.log(num('rain') / num('T')) / num('s')),
  '√(λ² · σ² · v + ρ²)': ({ num }) =>
    Math.sqrt(num('λ') ** 2 * num('σ²') * num('v') + num('ρ') ** 2),
  'rain · coefficient': ({ num }) => num('rain') * num('coefficient'),
  'coefficient · rain': ({ num }) => num('coefficient') * num('rain'),
  '0.2 · F_E · F_D · κ · U': ({ num }) =>
    num('0.2') * num('F_E') * num('F_D') * num('κ') * num('U'),
  'mean over the rain nodes': ({ values }) =>
    values.length === 0 ? null : (values as number[]).reduce((a, b) => a + b, 0) / values.length,
  'w^α': ({ num }) => num('w') ** num('α'),
  'wetting / (wetting + half-load)': ({ num }) =>
    num('wetting') / (num('wetting') + num('half-load')),
  'd^β · s^γ': ({ num }) => num('d') ** num('β') * num('s') ** num('γ'),
  'max(floor, 1 − adequacy)': ({ num }) => Math.max(num('floor'), 1 - num('adequacy')),
  'min(solid backing, max(floor, 1 − adequacy))': ({ num }) =>
    Math.min(num('solid backing'), Math.max(num('floor'), 1 - num('adequacy'))),
  'max(of the gap, of the stated efficiency)': ({ num }) =>
    Math.max(num('of the gap'), num('of the stated efficiency')),
  'max(least, min(1, gap / gap asked))': ({ num }) =>
    Math.max(num('least'), Math.min(1, num('gap_mm') / num('gap asked'))),
  susceptibility: ({ num }) => num('susceptibility'),
  'susceptibility · (1 − a + a · (1 − exp(−min(max(as of − installed, 0), cap) / T)))': ({
    num,
  }) => {
    const age = Math.min(Math.max(num('as of') - num('installed'), 0), num('cap'));
    return num('susceptibility') * (1 - num('a') + num('a') * (1 - Math.exp(-age / num('T'))));
  },
  [product]: ({ values: [w, ds] }) =>
    w === null || ds === null ? null : 100 * Number(w) * Number(ds),
  [`the smallest value whose draws of ${product} up to it weigh at least q`]: quantile,
  'the highest tier whose threshold is reached; a reported leak sets at least Next look': tier,
  'the rule’s own answer': ({ values, nodes }) =>
    values[0] === 'asks' ? `asks: ${nodes[0]!.label}` : values[0]!,
  'asks where all of its conditions hold (Kleene’s AND)': rule,
  'asks where any of its rules asks (Kleene’s OR)': edition,
  [needText('then')]: need(true),
  [needText('now')]: need(false),
  'what is on record behind the cladding, against what code asks now or the least gap': state,
  'max of what is asked': ({ values }) => Math.max(...values.map((value) => Number(value ?? 0))),
  '100 · (1 − exp(Σ share · ln(1 − min(index, cap) / 100))), each term rounded to 1e-9': ({
    nodes,
    values,
    num,
  }) => {
    const terms = nodes.map(({ share }, i) =>
      share === undefined
        ? 0
        : Math.round(share * Math.log(1 - Math.min(values[i] as number, num('cap')) / 100) * 1e9),
    );
    return 100 * (1 - Math.exp(terms.reduce((sum, term) => sum + term, 0) / 1e9));
  },
  'Σ index / 100 · area': ({ nodes, values }) => {
    const areas = nodes.map(({ inputs }) => inputs![0]!.value);
    if (areas.includes(null) || values.includes(null)) return null;
    return values.reduce<number>(
      (sum, index, i) => sum + ((index as number) / 100) * (areas[i] as number),
      0,
    );
  },
};
