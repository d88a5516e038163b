import { referenceRows } from '../../analysis/reference.ts';
import type { Constants } from '../../analysis/settings.ts';
import type { Facts } from './case.ts';

/**
 * The index of one wall by looping over every combination of what is not on record, written from the text of the method
 * and the tables of data/ alone: no factoring, no SQL.
 */
export interface Draw {
  readonly index: number;
  readonly weight: number;
  /** Value drawn for each fact. */
  readonly facts: Readonly<Record<string, string>>;
}

type Option = readonly [value: string, weight: number];

const round = (x: number, decimals: number): number =>
  Math.round(x * 10 ** decimals) / 10 ** decimals;

function prior(id: string, key: string, where: Readonly<Record<string, string>> = {}): Option[] {
  return referenceRows(id)
    .filter((row) => Object.entries(where).every(([name, value]) => row[name] === value))
    .map((row) => [row[key]!, Number(row.weight)]);
}

const known = (value: unknown, otherwise: () => Option[]): Option[] =>
  value === null || value === undefined ? otherwise() : [[`${value}`, 1]];

function eraOf(year: number): string {
  return referenceRows('prior_era').find(
    ({ from_year, to_year }) => year >= Number(from_year) && year <= Number(to_year),
  )!.era!;
}

const heightClass = (metres: number): string =>
  referenceRows('exposure_factor').findLast(({ from_m }) => metres >= Number(from_m))!
    .height_class!;

const useGroup = (use: unknown): string => {
  if (!use) return 'unknown';
  return use === 'house' || use === 'townhouse' ? 'house' : 'other';
};

/** The choices for what the load depends on. */
function loadOptions(building: Facts, wall: Facts) {
  const group = { use_group: useGroup(building.use) };
  const height = building.height_m ?? (building.storeys ? Number(building.storeys) * 3 : null);
  return {
    terrain: known(building.terrain, () => prior('prior_terrain', 'terrain')),
    height_m:
      height === null
        ? prior('prior_height', 'height_class', group)
        : ([[heightClass(Number(height)), 1]] as Option[]),
    roof: known(building.roof, () => prior('prior_roof', 'roof', group)),
    runoff: known(wall.runoff, () => prior('prior_runoff', 'runoff')),
    wind: prior('prior_wind', 'wind_m_s'),
    rain: [1, 2, 3, 4, 5].map((i) => [`${building[`rain_${i}`] ?? building.rain_mm}`, 1] as Option),
  };
}

function wettingOf(drawn: Readonly<Record<string, string>>): number {
  const height = referenceRows('exposure_factor').find(
    ({ height_class }) => height_class === drawn.height_m,
  )!;
  const deposition = referenceRows('deposition_factor').find(
    ({ roof, runoff }) => roof === drawn.roof && runoff === drawn.runoff,
  )!;
  const coefficient =
    0.2 *
    Number(height[drawn.terrain!]) *
    Number(deposition.factor) *
    (1 / Math.PI) *
    Number(drawn.wind);
  return coefficient * Number(drawn.rain);
}

/** The draws of what stands behind the cladding. `gapAsked` is g* of the method, mm. */
function* assemblies(wall: Facts, gapAsked: number, k: Constants) {
  for (const [material, p1] of known(wall.material, () => prior('prior_material', 'material'))) {
    for (const [installed, p2] of known(wall.installed, () =>
      prior('prior_installed', 'installed'),
    )) {
      const where = { material, era: eraOf(Number(installed)) };
      const sheathings = known(wall.sheathing, () => prior('prior_sheathing', 'sheathing', where));
      for (const [sheathing, p3] of sheathings) {
        for (const [layer, adequacy, p4] of layers(wall, where, gapAsked, k)) {
          const d = deficiency(material, sheathing, adequacy, k);
          const s = susceptibility(sheathing, Number(installed), k);
          const facts = { material, installed, sheathing, drainage: layer, gap_mm: `${adequacy}` };
          const { weight_deficiency: beta, weight_susceptibility: gamma } = k;
          yield { ds: round(d ** beta! * s ** gamma!, 6), weight: p1 * p2 * p3 * p4, facts };
        }
      }
    }
  }
}

function* layers(
  wall: Facts,
  where: Readonly<Record<string, string>>,
  gapAsked: number,
  k: Constants,
) {
  const material = referenceRows('materials').find((row) => row.material === where.material)!;
  const recorded = wall.drainage ?? (material.intrinsic_type || null);
  const gap = wall.gap_mm ?? null;
  const stated = Number(wall.drainage_eff_pct ?? 0) >= 90 ? k.stated_efficiency_adequacy! : 0;
  const types: Option[] =
    recorded === null && gap !== null
      ? [['', 1]]
      : known(recorded, () => prior('prior_drainage', 'drainage', where));
  for (const [type, p] of types) {
    if (gap !== null) {
      const single = type === 'none' || type === 'single_paper' || type === 'felt_1';
      const least = single ? 0 : k.adequacy_floor!;
      yield [type, Math.max(stated, least, Math.min(1, Number(gap) / gapAsked)), p] as const;
      continue;
    }
    for (const [adequacy, r] of prior('prior_adequacy', 'adequacy', { drainage: type })) {
      yield [type, Math.max(stated, Number(adequacy)), p * r] as const;
    }
  }
}

function deficiency(material: string, sheathing: string, adequacy: number, k: Constants): number {
  const d = Math.max(k.deficiency_floor!, 1 - adequacy);
  const plaster = ['stucco', 'one_coat_stucco', 'adhered_stone'].includes(material);
  const solid = sheathing === 'masonry' || sheathing === 'concrete';
  return round(plaster && solid ? Math.min(k.solid_backing_deficiency!, d) : d, 6);
}

function susceptibility(sheathing: string, installed: number, k: Constants): number {
  const base = Number(
    referenceRows('sheathing').find((row) => row.sheathing === sheathing)!.susceptibility,
  );
  const age = Math.min(Math.max(k.as_of! - installed, 0), k.age_cap_yr!);
  return round(
    base * (1 - k.age_share! + k.age_share! * (1 - Math.exp(-age / k.age_constant_yr!))),
    6,
  );
}

function* product(options: Readonly<Record<string, readonly Option[]>>) {
  const names = Object.keys(options);
  const at = names.map(() => 0);
  for (;;) {
    const picked = names.map((name, i) => options[name]![at[i]!]!);
    const facts = Object.fromEntries(names.map((name, i) => [name, picked[i]![0]]));
    yield { facts, weight: picked.reduce((p, [, weight]) => p * weight, 1) };
    let i = 0;
    while (i < names.length && ++at[i]! === options[names[i]!]!.length) at[i++] = 0;
    if (i === names.length) return;
  }
}

/** Every combination of a wall's unrecorded facts. */
export function everyDraw(building: Facts, wall: Facts, gapAsked: number, k: Constants): Draw[] {
  const behind = [...assemblies(wall, gapAsked, k)];
  const out: Draw[] = [];
  for (const load of product(loadOptions(building, wall))) {
    const wetting = round(wettingOf(load.facts), 5);
    const w = round(round(wetting / (wetting + k.half_load_l_m2!), 6) ** k.weight_load!, 6);
    for (const { ds, weight, facts } of behind) {
      out.push({
        index: 100 * w * ds,
        weight: load.weight * weight,
        facts: { ...load.facts, ...facts },
      });
    }
  }
  return out;
}

/** One draw at random, for walls with too many combinations. `uniform` gives 0 ≤ u < 1. */
export function randomDraws(
  building: Facts,
  wall: Facts,
  gapAsked: number,
  k: Constants,
  n: number,
  uniform: () => number,
): Draw[] {
  const loads = [...product(loadOptions(building, wall))];
  const behind = [...assemblies(wall, gapAsked, k)];
  const pickLoad = picker(loads, uniform);
  const pickBehind = picker(behind, uniform);
  return Array.from({ length: n }, () => {
    const [load, assembly] = [pickLoad(), pickBehind()];
    const wetting = round(wettingOf(load.facts), 5);
    const w = round(round(wetting / (wetting + k.half_load_l_m2!), 6) ** k.weight_load!, 6);
    return { index: 100 * w * assembly.ds, weight: 1, facts: { ...load.facts, ...assembly.facts } };
  });
}

function picker<T extends { readonly weight: number }>(list: readonly T[], uniform: () => number) {
  let sum = 0;
  const cumulative = list.map(({ weight }) => (sum += weight));
  return (): T => {
    const u = uniform() * sum;
    let [from, to] = [0, list.length - 1];
    while (from < to) {
      const middle = (from + to) >> 1;
      if (cumulative[middle]! > u) to = middle;
      else from = middle + 1;
    }
    return list[from]!;
  };
}

export const mean = (draws: readonly Draw[]): number => {
  const total = draws.reduce((sum, { weight }) => sum + weight, 0);
  return draws.reduce((sum, { index, weight }) => sum + index * weight, 0) / total;
};

/** The smallest value whose cumulative weight reaches q. */
export function quantile(draws: readonly Draw[], q: number): number {
  const total = draws.reduce((sum, { weight }) => sum + weight, 0);
  let sum = 0;
  for (const { index, weight } of draws.toSorted((a, b) => a.index - b.index)) {
    sum += weight / total;
    if (sum >= q - 1e-12) return index;
  }
  throw new Error('weights do not reach q');
}

/** Var(E[index | fact]) / Var(index). */
export function shareOf(draws: readonly Draw[], fact: string): number {
  const total = draws.reduce((sum, { weight }) => sum + weight, 0);
  const middle = mean(draws);
  const levels = new Map<string, { weight: number; sum: number }>();
  let variance = 0;
  for (const { index, weight, facts } of draws) {
    const level = levels.get(facts[fact]!) ?? { weight: 0, sum: 0 };
    level.weight += weight;
    level.sum += index * weight;
    levels.set(facts[fact]!, level);
    variance += (weight / total) * (index - middle) ** 2;
  }
  let explained = 0;
  for (const { weight, sum } of levels.values()) {
    explained += (weight / total) * (sum / weight - middle) ** 2;
  }
  return variance < 1e-9 ? 0 : explained / variance;
}
