import { boundsOf } from '../place/bounds.ts';
import { type Counted, type Frame, type Tier, tiers } from '../session-types.ts';
import type { Category, Held } from '../sift/held.ts';
import { centsOf } from './cents.ts';

/** Fetched together with what the map needs: the columns that the page sorts, filters and counts by at once. */
const soon = [
  'tier',
  'tier_low',
  'tier_high',
  'index',
  'index_high',
  'wetting_l_m2',
  'adequacy',
  'rank',
  'longitude',
  'latitude',
  'height_used_m',
  'insured_value',
  'rain_mm',
  'installed_used',
];

/** What the map and the filters need of every building, in order of its ordinal. */
export async function frame(held: Held): Promise<Frame> {
  await held.ahead(soon);
  const [longitude, latitude, index, wetting] = await Promise.all(
    ['longitude', 'latitude', 'index', 'wetting_l_m2'].map(held.number),
  );
  const [tier, tierLow, tierHigh, region, material] = await Promise.all(
    ['tier', 'tier_low', 'tier_high', 'region', 'material'].map(held.category),
  );
  return {
    n: held.n,
    // Copies: what crosses to the page is handed over, and these columns stay in use here.
    longitude: longitude!.slice(),
    latitude: latitude!.slice(),
    bounds: boundsOf(longitude!, latitude!),
    tier: new Uint8Array(tier!.codes),
    cents: centsOf(index!),
    counts: {
      tier: tierCounts(tier!),
      tierLow: tierCounts(tierLow!),
      tierHigh: tierCounts(tierHigh!),
      region: counted(region!),
      material: counted(material!),
    },
    wettingMax: greatest(wetting!),
  };
}

/** NaN is no record, and greater than nothing. */
function greatest(values: Float64Array): number {
  let most = 0;
  for (const value of values) if (value > most) most = value;
  return most;
}

const tierCounts = (tier: Category): Record<Tier, number> => {
  const n = countsOf(tier);
  return Object.fromEntries(tiers.map((name, i) => [name, n[i + 1]!])) as Record<Tier, number>;
};

/** Each word with its buildings, most frequent first; no record among them where there is any. */
export function counted(category: Category): Counted[] {
  const [none, ...n] = countsOf(category);
  const all: Counted[] = category.words.map((value, i) => ({ value, n: n[i]! }));
  if (none! > 0) all.push({ value: null, n: none! });
  // Stable: equal counts stay in the order of their words.
  return all.filter((one) => one.n > 0).sort((a, b) => b.n - a.n);
}

/** Buildings by place of their word; the first is no record. */
function countsOf({ codes, words }: Category): number[] {
  const n = new Array<number>(words.length + 1).fill(0);
  for (let b = 0; b < codes.length; b++) n[codes[b]! + 1]!++;
  return n;
}
