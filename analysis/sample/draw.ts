import { localPivotal } from './pivotal.ts';
import type { Prepared, PreparedStratum } from './prepare.ts';
import type { Random } from './random.ts';
import { acceptor, takeFrom } from './sequential.ts';
import type { Points } from './space.ts';
import { systematic } from './systematic.ts';

/** What one draw gave. */
export interface Drawn {
  /** Ordinal. */
  readonly unit: number;
  /** Place of the stratum in `Prepared.strata`. */
  readonly stratum: number;
  /** Place in the stratum's members. */
  readonly member: number;
  readonly replicate: number | null;
}

/** Places of certain members, and of those left to chance. */
function split({ chances }: PreparedStratum) {
  const all = Int32Array.from({ length: chances.length }, (_, i) => i);
  return { certain: all.filter((i) => chances[i] === 1), open: all.filter((i) => chances[i]! < 1) };
}

/** Members, each with the number of the draw that took it. */
type Taken = readonly (readonly [member: number, replicate: number | null])[];

const once = (members: Int32Array): Taken => Array.from(members, (member) => [member, null]);

/** One systematic draw of `n` of the members left to chance. */
function bySize(stratum: PreparedStratum, open: Int32Array, n: number, random: Random): Int32Array {
  const chances = Float64Array.from(open, (i) => stratum.chances[i]!);
  return systematic(chances, n, random).map((place) => open[place]!);
}

function ppsDraw(stratum: PreparedStratum, random: Random): Taken {
  const { certain, open } = split(stratum);
  return [
    ...once(certain),
    ...once(bySize(stratum, open, stratum.openings - certain.length, random)),
  ];
}

function replicatedDraw(stratum: PreparedStratum, replicates: number, random: Random): Taken {
  const { certain, open } = split(stratum);
  const each = (stratum.openings - certain.length) / replicates;
  const draws = Array.from({ length: replicates }, (_, r) =>
    Array.from(bySize(stratum, open, each, random), (member) => [member, r + 1] as const),
  );
  return [...once(certain), ...draws.flat()];
}

/** The rows of the space that belong to a stratum. */
function pointsOf(
  { members }: PreparedStratum,
  space: Points,
  rowOf: ReadonlyMap<number, number>,
): Points {
  const { dimensions, at } = space;
  const own = new Float64Array(members.length * dimensions);
  members.forEach((unit, k) => {
    const row = rowOf.get(unit)! * dimensions;
    own.set(at.subarray(row, row + dimensions), k * dimensions);
  });
  return { n: members.length, dimensions, at: own };
}

/** Everything from which draws are taken, made once. */
function drawingOf(ready: Prepared): (h: number, random: Random) => Taken {
  const { strata, request, frame, space } = ready;
  const rowOf = new Map(Array.from(space ? frame.drawn : [], (unit, row) => [unit, row]));
  const points = space ? strata.map((stratum) => pointsOf(stratum, space, rowOf)) : [];
  if (request.design === 'pps') return (h, random) => ppsDraw(strata[h]!, random);
  if (request.design === 'replicated')
    return (h, random) => replicatedDraw(strata[h]!, request.replicates, random);
  return (h, random) => once(localPivotal(points[h]!, strata[h]!.chances, random));
}

/** Simple random selection within each stratum, keeping the distance over all of them where one is asked. */
function alikeDrawer(ready: Prepared): (random: Random) => Drawn[] {
  const newAccept = acceptor(ready);
  return (random) => {
    const accept = newAccept(ready.frame.mustInclude);
    return ready.strata.flatMap(({ members, openings }, h) => {
      const taken = takeFrom(members, openings, accept, random);
      return Array.from(taken, (member) => drawn(members, h, member, null));
    });
  };
}

const drawn = (members: Int32Array, stratum: number, member: number, replicate: number | null) => ({
  unit: members[member]!,
  stratum,
  member,
  replicate,
});

/** Draws as often as wanted; every call takes the next words of the generator. */
export function drawer(ready: Prepared): (random: Random) => Drawn[] {
  const { design } = ready.request;
  if (design === 'simple' || design === 'stratified') return alikeDrawer(ready);
  const drawing = drawingOf(ready);
  return (random) =>
    ready.strata.flatMap(({ members }, h) =>
      drawing(h, random).map(([member, replicate]) => drawn(members, h, member, replicate)),
    );
}

/** Units to take in place of others, in order: of each stratum a number of those that were not taken, each alike. */
export function drawReplacements(
  ready: Prepared,
  sample: readonly Drawn[],
  random: Random,
): Drawn[] {
  const { strata, frame, request } = ready;
  const taken = new Set(sample.map(({ unit }) => unit));
  const accept = acceptor(ready)(Int32Array.from([...frame.mustInclude, ...taken]));
  const free = (unit: number) => !taken.has(unit) && accept(unit);
  return strata.flatMap(({ members, openings }, h) => {
    const wanted = openings > 0 ? request.replacementsPerStratum : 0;
    const found = takeFrom(members, wanted, free, random);
    return Array.from(found, (member) => drawn(members, h, member, null));
  });
}
