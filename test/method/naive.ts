import { referenceRows } from '../../analysis/reference.ts';
import type { Settings } from '../../analysis/settings.ts';
import type { Facts } from './case.ts';

/**
 * The index of one wall by looping over every combination of what is not on record, written from the text of the method
 * (sections 2, 4, 5, 6, *Blanks* and *digits*) and the tables of data/ alone: no factoring, no merging, no SQL.
 */
export interface NaiveWall {
  /** Facts of the building, with the five equal nodes of its rain (mm) as rain_1 … rain_5. */
  readonly building: Facts;
  readonly wall: Facts;
  /** g* of the method (mm), by hand; it counts only where a gap is on record. */
  readonly gapAskedMm: number;
  readonly settings: Settings;
}

/** Value drawn for each fact. */
type Drawn = Readonly<Record<string, string>>;

export interface Draw {
  /** 0-100, rounded to 1e-6. */
  readonly index: number;
  /** Probability: the weights of a list of draws add up to 1. */
  readonly weight: number;
  readonly facts: Drawn;
}

type Option = readonly [value: string, probability: number];
interface Choice {
  readonly fact: string;
  /** What the fact may be, given what was drawn before it. */
  readonly options: (drawn: Drawn) => readonly Option[];
}

/** Stands for a fact that enters no formula of this wall. */
const untold = 'no matter';
const round = (x: number, decimals: number): number =>
  Math.round(x * 10 ** decimals) / 10 ** decimals;
const rowOf = (id: string, key: string) =>
  new Map(referenceRows(id).map((row) => [row[key]!, row] as const));
const [exposure, sheathings, materials, layers] = [
  rowOf('exposure_factor', 'height_class'),
  rowOf('sheathing', 'sheathing'),
  rowOf('materials', 'material'),
  rowOf('drainage', 'drainage'),
];
const deposition = new Map(
  referenceRows('deposition_factor').map((row) => [`${row.roof} ${row.runoff}`, row.factor]),
);

/** Reads the priors of a run: the options of a table's `key` among its rows that match, adding up to 1. */
function priorsOf({ priors }: Settings) {
  const read = new Map<string, Option[]>();
  return (key: string, where: Drawn = {}, table = key): Option[] => {
    const name = [table, ...Object.values(where)].join(' ');
    if (!read.has(name)) {
      const rows = (priors[`prior_${table}`] ?? referenceRows(`prior_${table}`)).filter((row) =>
        Object.entries(where).every(([column, value]) => row[column] === value),
      );
      const total = rows.reduce((sum, { weight }) => sum + Number(weight), 0);
      read.set(
        name,
        rows.map((row) => [row[key]!, Number(row.weight) / total]),
      );
    }
    return read.get(name)!;
  };
}

const known = (value: unknown): Option[] | undefined =>
  value === null || value === undefined ? undefined : [[`${value}`, 1]];

function eraOf(year: string): string {
  const inside = ({ from_year, to_year }: Drawn) =>
    Number(year) >= Number(from_year) && Number(year) <= Number(to_year);
  return referenceRows('prior_era').find(inside)!.era!;
}

/** Height class of F_E: height on record, else storeys × 3.0 m; undefined where neither is on record. */
function heightClass({ height_m, storeys }: Facts): string | undefined {
  const metres = height_m ?? (storeys ? Number(storeys) * 3 : undefined);
  if (metres === undefined) return undefined;
  return referenceRows('exposure_factor').findLast(({ from_m }) => Number(metres) >= Number(from_m))
    ?.height_class;
}

const useGroup = ({ use }: Facts): string => {
  if (!use) return 'unknown';
  return use === 'house' || use === 'townhouse' ? 'house' : 'other';
};

/** The facts of a wall in the order in which they are drawn. */
function choicesOf(of: NaiveWall): Choice[] {
  const { building, wall, settings } = of;
  const prior = priorsOf(settings);
  const use_group = useGroup(building);
  const era = ({ material, installed }: Drawn) => ({
    material: material!,
    era: eraOf(installed!),
  });
  const byNature = ({ material }: Drawn) => materials.get(material!)!.intrinsic_type || undefined;
  const hasGap = known(wall.gap_mm) !== undefined;
  const nodes = [1, 2, 3, 4, 5].map((i) => building[`rain_${i}`] ?? building.rain_mm);
  const choice = (fact: string, options: Choice['options']): Choice => ({ fact, options });
  return [
    choice('rain', () => nodes.map((mm) => [`${mm}`, 1 / 5])),
    choice('terrain', () => known(building.terrain) ?? prior('terrain')),
    choice(
      'height_m',
      () => known(heightClass(building)) ?? prior('height_class', { use_group }, 'height'),
    ),
    choice('roof', () => known(building.roof) ?? prior('roof', { use_group })),
    choice('runoff', () => known(wall.runoff) ?? prior('runoff')),
    choice('wind', () => prior('wind_m_s', {}, 'wind')),
    choice('material', () => known(wall.material) ?? prior('material')),
    choice('installed', () => known(wall.installed) ?? prior('installed')),
    choice('sheathing', (drawn) => known(wall.sheathing) ?? prior('sheathing', era(drawn))),
    choice('drainage', (drawn) => {
      const recorded = known(wall.drainage ?? byNature(drawn));
      // With a gap on record the type matters only for the least adequacy, which a type that is blank does not lower.
      return recorded ?? (hasGap ? [[untold, 1]] : prior('drainage', era(drawn)));
    }),
    choice('gap_mm', ({ drainage }) => {
      if (hasGap) return [[untold, 1]];
      // What is drawn is the adequacy of the layer, which a stated efficiency bounds from below.
      return prior('adequacy', { drainage: drainage! }).map(([adequacy, probability]) => [
        `${Math.max(stated(of), Number(adequacy))}`,
        probability,
      ]);
    }),
  ];
}

/** wetting_l_m2 = 0.2 · F_E · F_D · κ · U · rain_mm, κ = 1/π without a wind record. */
function wettingOf({ rain, terrain, height_m, roof, runoff, wind }: Drawn): number {
  const exposed = Number(exposure.get(height_m!)![terrain!]);
  const falling = Number(deposition.get(`${roof} ${runoff}`));
  return round(0.2 * exposed * falling * (1 / Math.PI) * Number(wind) * Number(rain), 5);
}

/** The least adequacy that a stated drainage efficiency of 90 % or more stands for. */
const stated = ({ wall, settings }: NaiveWall): number =>
  Number(wall.drainage_eff_pct ?? 0) >= 90 ? settings.constants.stated_efficiency_adequacy! : 0;

function adequacyOf(of: NaiveWall, drawn: Drawn): number {
  if (drawn.gap_mm !== untold) return Number(drawn.gap_mm);
  const sheets = layers.get(drawn.drainage!)?.sheets;
  const least = sheets === '0' || sheets === '1' ? 0 : of.settings.constants.adequacy_floor!;
  return Math.max(stated(of), least, Math.min(1, Number(of.wall.gap_mm) / of.gapAskedMm));
}

/** d = max(0.05, 1 − A); plaster and adhered stone on concrete or masonry: at most 0.3 (a layer may drain it better). */
function deficiencyOf(of: NaiveWall, drawn: Drawn): number {
  const { deficiency_floor, solid_backing_deficiency } = of.settings.constants;
  const d = Math.max(deficiency_floor!, 1 - adequacyOf(of, drawn));
  const stuck = ['stucco', 'one_coat_stucco', 'adhered_stone'].includes(drawn.material!);
  const solid = drawn.sheathing === 'masonry' || drawn.sheathing === 'concrete';
  return round(stuck && solid ? Math.min(solid_backing_deficiency!, d) : d, 6);
}

/** Susceptibility × age factor; the part that grows with age is a setting. */
function susceptibilityOf({ settings }: NaiveWall, { sheathing, installed }: Drawn): number {
  const { as_of, age_cap_yr, age_share, age_constant_yr, age_counts } = settings.constants;
  const base = Number(sheathings.get(sheathing!)!.susceptibility);
  const age = Math.min(Math.max(as_of! - Number(installed), 0), age_cap_yr!);
  const factor = 1 - age_share! + age_share! * (1 - Math.exp(-age / age_constant_yr!));
  return round(age_counts === 1 ? base * factor : base, 6);
}

function indexOf(of: NaiveWall, drawn: Drawn): number {
  const k = of.settings.constants;
  const wetting = wettingOf(drawn);
  const w = round(wetting / (wetting + k.half_load_l_m2!), 6);
  const d = deficiencyOf(of, drawn);
  const s = susceptibilityOf(of, drawn);
  const behind = round(d ** k.weight_deficiency! * s ** k.weight_susceptibility!, 6);
  return round(100 * round(w ** k.weight_load!, 6) * behind, 6);
}

/** Every combination of a wall's unrecorded facts. */
export function everyDraw(of: NaiveWall): Draw[] {
  const choices = choicesOf(of);
  const out: Draw[] = [];
  const visit = (depth: number, facts: Drawn, weight: number): void => {
    const choice = choices[depth];
    if (!choice) {
      out.push({ index: indexOf(of, facts), weight, facts });
      return;
    }
    for (const [value, probability] of choice.options(facts)) {
      visit(depth + 1, { ...facts, [choice.fact]: value }, weight * probability);
    }
  };
  visit(0, {}, 1);
  return out;
}

/** `n` walls drawn at random, fact by fact. `uniform` gives 0 ≤ u < 1. */
export function randomDraws(of: NaiveWall, n: number, uniform: () => number): Draw[] {
  const choices = choicesOf(of);
  return Array.from({ length: n }, () => {
    const facts: Record<string, string> = {};
    for (const { fact, options } of choices) facts[fact] = pick(options(facts), uniform());
    return { index: indexOf(of, facts), weight: 1 / n, facts };
  });
}

function pick(options: readonly Option[], u: number): string {
  let sum = 0;
  for (const [value, probability] of options) {
    sum += probability;
    if (u < sum) return value;
  }
  return options.at(-1)![0];
}

export const mean = (draws: readonly Draw[]): number =>
  draws.reduce((sum, { index, weight }) => sum + index * weight, 0);

export const variance = (draws: readonly Draw[]): number => {
  const middle = mean(draws);
  return draws.reduce((sum, { index, weight }) => sum + weight * (index - middle) ** 2, 0);
};

/** The smallest value whose cumulative weight ≥ q − 1e-12. */
export function quantile(draws: readonly Draw[], q: number): number {
  let sum = 0;
  for (const { index, weight } of draws.toSorted((a, b) => a.index - b.index)) {
    sum += weight;
    if (sum >= q - 1e-12) return index;
  }
  throw new Error('the weights do not reach q');
}

/**
 * Var(E[index | fact]) / Var(index). `error`: its standard error where the draws are a simple random sample, by the
 * influence of each draw on the ratio, plus the bias of a plug-in estimate (number of levels / n).
 */
export function shareOf(draws: readonly Draw[], fact: string) {
  const [middle, whole] = [mean(draws), variance(draws)];
  const levels = new Map<string, { weight: number; sum: number }>();
  for (const { index, weight, facts } of draws) {
    const level = levels.get(facts[fact]!) ?? { weight: 0, sum: 0 };
    levels.set(facts[fact]!, { weight: level.weight + weight, sum: level.sum + index * weight });
  }
  const given = new Map(Array.from(levels, ([name, { weight, sum }]) => [name, sum / weight]));
  let explained = 0;
  for (const [name, { weight }] of levels) explained += weight * (given.get(name)! - middle) ** 2;
  const share = whole < 1e-9 ? 0 : explained / whole;
  let square = 0;
  for (const { index, weight, facts } of draws) {
    const [apart, rest] = [given.get(facts[fact]!)! - middle, index - given.get(facts[fact]!)!];
    const influence = (apart ** 2 + 2 * apart * rest - share * (index - middle) ** 2) / whole;
    square += weight * influence ** 2;
  }
  return { share, error: Math.sqrt(square / draws.length) + levels.size / draws.length };
}
