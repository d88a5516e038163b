/** What a variance is made of: terms of one stratum, each already times its weight. */
export interface Terms {
  /** weight × residual of each unit. */
  readonly z: readonly number[];
  /** Chance with which each unit came to be answered. */
  readonly chance: readonly number[];
}

export interface Variance {
  readonly variance: number;
  readonly degreesOfFreedom: number;
}

const sum = (values: readonly number[]): number => values.reduce((total, x) => total + x, 0);

/** n/(n − 1) Σ (t − mean)²; a single total is compared with zero, the mean of residuals over the whole sample. */
function between(totals: readonly number[]): number {
  if (totals.length === 1) return totals[0]! ** 2;
  const mean = sum(totals) / totals.length;
  return (sum(totals.map((t) => (t - mean) ** 2)) * totals.length) / (totals.length - 1);
}

/** Totals of the terms by group, in the order in which groups appear. */
function totalsBy(z: readonly number[], groups: readonly (string | number | null)[]): number[] {
  const totals = new Map<string | number | null, number>();
  z.forEach((term, i) => {
    totals.set(groups[i]!, (totals.get(groups[i]!) ?? 0) + term);
  });
  return [...totals.values()];
}

/**
 * Deville's variance for draws without replacement (*Variance estimation for complex statistics and estimators*, 1999):
 * Σ (1 − π)(z − A)² / (1 − Σ a²), a = (1 − π)/Σ(1 − π), A = Σ a z. With equal chances it is the text-book
 * (1 − f) n/(n − 1) Σ (z − mean)²; with unequal ones it approximates, for it asks for no joint chances.
 */
export function elementVariance({ z, chance }: Terms): Variance {
  const free = chance.map((pi) => 1 - pi);
  const whole = sum(free);
  const degreesOfFreedom = Math.max(0, free.filter((c) => c > 0).length - 1);
  if (whole <= 0) return { variance: 0, degreesOfFreedom };
  if (z.length === 1) return { variance: free[0]! * z[0]! ** 2, degreesOfFreedom };
  const a = free.map((c) => c / whole);
  const centre = sum(a.map((share, i) => share * z[i]!));
  const spread = sum(free.map((c, i) => c * (z[i]! - centre) ** 2));
  const left = 1 - sum(a.map((share) => share ** 2));
  const only = Math.max(...z.map((term, i) => free[i]! * term ** 2));
  return { variance: left > 1e-9 ? spread / left : only, degreesOfFreedom };
}

/** Ultimate clusters: only the totals of the clusters vary, less the mean share of the stratum that was drawn. */
export function clusterVariance({ z, chance }: Terms, clusters: readonly string[]): Variance {
  const totals = totalsBy(z, clusters);
  const free = 1 - sum(chance) / chance.length;
  return { variance: free * between(totals), degreesOfFreedom: totals.length - 1 };
}

/** Between independent draws, each of which estimates the whole. */
export function replicateVariance({ z }: Terms, replicates: readonly (number | null)[]): Variance {
  const totals = totalsBy(z, replicates);
  return { variance: between(totals), degreesOfFreedom: totals.length - 1 };
}

const squaredDistance = (a: readonly number[], b: readonly number[]): number =>
  sum(a.map((x, k) => (x - b[k]!) ** 2));

/** Mean term of the units nearest to unit i: of all of them where several are equally near. */
function nearest(i: number, z: readonly number[], places: readonly (readonly number[])[]): number {
  const away = places.map((place, j) =>
    j === i ? Number.POSITIVE_INFINITY : squaredDistance(places[i]!, place),
  );
  const least = Math.min(...away);
  const near = z.filter((_, j) => away[j] === least);
  return sum(near) / near.length;
}

/**
 * Nearest neighbours, for samples spread over a space: ½ Σ (1 − π)(z − z of the nearest)², after Grafström and Schelin
 * (*How to select representative samples*, Scandinavian Journal of Statistics 41, 2014).
 */
export function neighbourVariance(
  { z, chance }: Terms,
  places: readonly (readonly number[])[],
): Variance {
  const degreesOfFreedom = z.length - 1;
  if (z.length < 2) return { variance: elementVariance({ z, chance }).variance, degreesOfFreedom };
  const terms = z.map((term, i) => (1 - chance[i]!) * (term - nearest(i, z, places)) ** 2);
  return { variance: sum(terms) / 2, degreesOfFreedom };
}
