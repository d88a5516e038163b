import { tiers } from '../session-types.ts';
import { arranged } from '../sift/arrange.ts';
import { type Neighbourhoods, neighbourhoods, type Weighted } from './belts.ts';
import { nearness } from './near.ts';
import { published, type SumTable, tally } from './sums.ts';
import type { ExposureColumns } from './types.ts';

/** Where a line stands, in the order of `Clusters.placed`. */
const placings = ['located', 'postal centroid', 'nowhere'] as const;

/**
 * The circles, each about a building, that hold most insured value in the first two tiers. No line lies in two: their
 * centres are more than twice the radius apart.
 */
export interface Clusters {
  readonly radiusKm: number;
  /** Ordinal of the building in the middle, greatest value first, ties by building_id. At most 20. */
  readonly centre: Int32Array;
  /** All lines shown in each circle; scope `mean` is the value that ranks it. */
  readonly sums: SumTable;
  /** The same by tier: circle × 5 + tier. */
  readonly byTier: SumTable;
  /** Sums over all lines shown by `placings`: postal centroids and lines without a place are in no circle. */
  readonly placed: SumTable;
}

const most = 20;

export function clustersOf(
  columns: ExposureColumns,
  shown: Int32Array,
  radiusKm: number,
  currency: number,
): Clusters {
  const placing = placingOf(columns, shown);
  const located = shown.filter((_, i) => placing[i] === 0);
  const ranked = rankedLines(columns, located, currency);
  const places = placesOf(columns, ranked);
  const found = greatestApart({ ...places, weight: weights(columns, ranked) }, radiusKm);
  const centre = Int32Array.from(found, (i) => ranked[i]!);
  return {
    radiusKm,
    centre,
    ...circles(columns, located, centre, radiusKm, currency),
    placed: published(tally(columns, shown, placing, placings.length, currency)),
  };
}

function placingOf({ placeSource, longitude, latitude }: ExposureColumns, shown: Int32Array) {
  const postal = placeSource.words.indexOf(placings[1]);
  return shown.map((b) => {
    if (Number.isNaN(longitude[b]!) || Number.isNaN(latitude[b]!)) return 2;
    return postal >= 0 && placeSource.codes[b] === postal ? 1 : 0;
  });
}

/** Lines that a circle is ranked by: value on record in the currency asked for, in the first two tiers; by ordinal. */
const rankedLines = (
  { tier, insuredValue, currency: { codes } }: ExposureColumns,
  located: Int32Array,
  currency: number,
): Int32Array =>
  located.filter((b) => tier[b]! <= 1 && codes[b] === currency && insuredValue[b]! > 0).sort();

const placesOf = ({ longitude, latitude }: ExposureColumns, lines: Int32Array) => ({
  longitude: picked(longitude, lines),
  latitude: picked(latitude, lines),
});

/** By a loop: `from` with a function takes ten times as long over a million. */
function picked(values: Float64Array, lines: Int32Array): Float64Array {
  const out = new Float64Array(lines.length);
  for (let i = 0; i < out.length; i++) out[i] = values[lines[i]!]!;
  return out;
}

/** Values as whole numbers: hundredths, or as much coarser as it takes for their sum to stay exact. */
function weights({ insuredValue }: ExposureColumns, lines: Int32Array): Float64Array {
  const total = lines.reduce((sum, b) => sum + insuredValue[b]!, 0);
  let per = 100;
  while (total * per > 2 ** 52) per /= 10;
  return Float64Array.from(lines, (b) => Math.round(insuredValue[b]! * per));
}

/**
 * Places in order of the weight within the radius, greatest first, ties by place, leaving out each within twice the radius
 * of an earlier one. Exact sums are made only where the bound leaves it open who is greatest.
 */
export function greatestApart(places: Weighted, radiusKm: number): readonly number[] {
  const near = neighbourhoods(places, radiusKm);
  const sum = near.bound();
  const known = new Uint8Array(sum.length);
  const order = arranged(
    Int32Array.from(sum, (_, i) => i),
    sum.slice(),
    true,
  );
  // A millimetre more than twice the radius, for distances are rounded to the millimetre.
  const tooNear = nearness(places).within(2 * radiusKm + 1e-6);
  const open = new Uint8Array(sum.length).fill(1);
  const found: number[] = [];
  while (found.length < most) {
    const next = greatest(order, sum, known, open, near);
    if (next < 0) break;
    found.push(next);
    for (let i = 0; i < open.length; i++) if (open[i] && tooNear(i, next)) open[i] = 0;
  }
  return found;
}

/** The open place of greatest sum; −1 where none has any. `order` descends by the bounds with which `sum` began. */
function greatest(
  order: Int32Array,
  sum: Float64Array,
  known: Uint8Array,
  open: Uint8Array,
  near: Neighbourhoods,
): number {
  let best = -1;
  let bestSum = 0;
  for (const i of order) {
    if (!open[i]) continue;
    if (!known[i]) {
      if (sum[i]! < bestSum) break;
      if (sum[i] === bestSum && best >= 0 && i > best) continue;
      sum[i] = near.exact(i);
      known[i] = 1;
    }
    if (sum[i]! > bestSum || (sum[i] === bestSum && best >= 0 && i < best)) {
      best = i;
      bestSum = sum[i]!;
    }
  }
  return best;
}

/** What lies in each circle, whatever its tier. */
function circles(
  columns: ExposureColumns,
  located: Int32Array,
  centre: Int32Array,
  radiusKm: number,
  currency: number,
): Pick<Clusters, 'sums' | 'byTier'> {
  const within = nearness(placesOf(columns, located)).within(radiusKm);
  const centres = Array.from(centre, (b) => located.indexOf(b));
  const circle = located.map((_, i) => centres.findIndex((c) => within(i, c)));
  const inside = located.filter((_, i) => circle[i]! >= 0);
  const of = circle.filter((c) => c >= 0);
  const byTier = of.map((c, i) => c * tiers.length + columns.tier[inside[i]!]!);
  return {
    sums: published(tally(columns, inside, of, centre.length, currency)),
    byTier: published(tally(columns, inside, byTier, centre.length * tiers.length, currency)),
  };
}
