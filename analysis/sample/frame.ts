import { counted, type Outcome, type Population, refused } from './types.ts';

/** A unit that is left out, and why: no access, already opened, an owner who declines. */
export interface Exclusion {
  readonly id: string;
  readonly reason: string;
}

/** The population sorted by id, so that the order of a file never matters, and what the draw may take. */
export interface Frame {
  readonly population: Population;
  /** Ordinals in order of id: what is left to chance. */
  readonly drawn: Int32Array;
  /** Ordinals in order of id: what is selected in any case. */
  readonly mustInclude: Int32Array;
  readonly excluded: readonly { readonly reason: string; readonly units: number }[];
}

/** By code unit: an order that depends on no language. */
function inOrderOfId({ id, n }: Population): Int32Array {
  const order = Int32Array.from({ length: n }, (_, i) => i);
  return order.sort((a, b) => (id[a]! < id[b]! ? -1 : id[a]! > id[b]! ? 1 : 0));
}

function repeated({ id }: Population, order: Int32Array): string | null {
  const at = order.findIndex((unit, k) => k > 0 && id[unit] === id[order[k - 1]!]);
  return at < 0 ? null : id[order[at]!]!;
}

function countedReasons(reasons: Iterable<string>): Frame['excluded'] {
  const counts = new Map<string, number>();
  for (const reason of reasons) counts.set(reason, (counts.get(reason) ?? 0) + 1);
  return [...counts].map(([reason, units]) => ({ reason, units }));
}

const listed = (ids: readonly string[]): string =>
  ids.length > 5 ? `${ids.slice(0, 5).join(', ')} and ${ids.length - 5} more` : ids.join(', ');

/** Excluded units leave the frame and are counted by reason; an exclusion outweighs a must-include. */
export function frameOf(
  population: Population,
  exclusions: readonly Exclusion[] = [],
  mustInclude: readonly string[] = [],
): Outcome<{ frame: Frame }> {
  const { id, unit } = population;
  if (population.n === 0)
    return refused(`The population is empty: no ${unit} is left to choose from.`);
  const order = inOrderOfId(population);
  const twice = repeated(population, order);
  if (twice !== null)
    return refused(`The ${unit} ${twice} stands in the population more than once.`);
  const reasonOf = new Map(exclusions.map((one) => [one.id, one.reason]));
  const wanted = new Set(mustInclude);
  const out = order.filter((one) => reasonOf.has(id[one]!));
  const rest = order.filter((one) => !reasonOf.has(id[one]!));
  if (rest.length === 0) return refused(`Every ${unit} is excluded: none is left to choose from.`);
  const known = new Set(id);
  const unknown = [...reasonOf.keys(), ...wanted].filter((one) => !known.has(one));
  const both = [...wanted].filter((one) => reasonOf.has(one));
  const says: string[] = [];
  if (unknown.length > 0)
    says.push(`To be excluded or included, but not in the population: ${listed(unknown)}.`);
  if (both.length > 0)
    says.push(`Both excluded and to be included, taken as excluded: ${listed(both)}.`);
  if (out.length > 0)
    says.push(
      `${counted(out.length, unit)} excluded from the frame: the sample says nothing about them.`,
    );
  const frame = {
    population,
    drawn: rest.filter((one) => !wanted.has(id[one]!)),
    mustInclude: rest.filter((one) => wanted.has(id[one]!)),
    excluded: countedReasons(Array.from(out, (one) => reasonOf.get(id[one]!)!)),
  };
  return { ok: true, frame, says };
}
