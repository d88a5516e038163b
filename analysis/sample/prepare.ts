import { allocate } from './allocate.ts';
import { chancesBySize, equalChances } from './chances.ts';
import { type Frame, frameOf } from './frame.ts';
import { replicateChances } from './replicates.ts';
import { drawsBySize, isByHand, type SelectionRequest, usesStrata, wrongWith } from './request.ts';
import { sizesOf } from './sizes.ts';
import { type Points, spaceOf } from './space.ts';
import { type Strata, saysMerged, saysSmall, strataTable, stratify } from './strata.ts';
import { counted, type Outcome, type Population, refused, type StratumRow } from './types.ts';

/** A stratum ready to be drawn from, as often as wanted. */
export interface PreparedStratum {
  readonly row: StratumRow;
  /** Ordinals, in order of id. */
  readonly members: Int32Array;
  readonly openings: number;
  /** Of each member, adding up to the openings; for replicated draws those of one replicate, and 1 for certain units. */
  readonly chances: Float64Array;
}

/** Everything but the draw. */
export interface Prepared {
  readonly population: Population;
  readonly request: SelectionRequest;
  readonly frame: Frame;
  readonly merged: Strata['merged'];
  readonly strata: readonly PreparedStratum[];
  /** The space of a balanced sample, over `frame.drawn`; null in other designs. */
  readonly space: Points | null;
}

interface Said<T> {
  readonly value: T;
  readonly says: readonly string[];
}

/** Openings left to chance: what must be included is taken off, and no more is drawn than there is. */
function openingsLeft({ drawn, mustInclude, population }: Frame, wanted: number): Said<number> {
  const all = drawn.length + mustInclude.length;
  const says: string[] = [];
  if (wanted > all)
    says.push(
      `${counted(wanted, 'opening')} asked, more than the ${counted(all, population.unit)} of the frame: all are selected, and nothing is left to chance.`,
    );
  if (mustInclude.length >= wanted && drawn.length > 0)
    says.push(
      `The ${counted(mustInclude.length, population.unit)} to be included use up all openings: the sample says nothing about the others.`,
    );
  return { value: Math.max(0, Math.min(wanted, all) - mustInclude.length), says };
}

function divided({ population, drawn }: Frame, request: SelectionRequest): Said<Strata> {
  const says: string[] = [];
  if (!usesStrata(request) && request.strata.length > 0)
    says.push(`The ${request.design} design draws from the frame as one: no strata are made.`);
  if (request.design === 'stratified' && request.strata.length === 0)
    says.push('No field was chosen to divide by: this draws as simple random selection does.');
  const strata = stratify(population, drawn, usesStrata(request) ? request.strata : []);
  return { value: strata, says: [...says, ...saysMerged(strata, population)] };
}

/** Openings of each stratum. */
function sharedOut(rows: readonly StratumRow[], frame: Frame, request: SelectionRequest) {
  const byHand = isByHand(request);
  const left = byHand ? null : openingsLeft(frame, request.openings);
  if (left?.value === 0) return { ok: true as const, sizes: rows.map(() => 0), says: left.says };
  const divides = usesStrata(request) && request.strata.length > 0;
  const shared = allocate(
    left?.value ?? 0,
    rows,
    divides ? request.allocation : { kind: 'proportional' },
  );
  return shared.ok ? { ...shared, says: [...(left?.says ?? []), ...shared.says] } : shared;
}

type Chances = Outcome<{ chances: Float64Array; openings: number }>;

function chancesOf(
  members: Int32Array,
  n: number,
  sizes: Float64Array | null,
  request: SelectionRequest,
): Chances {
  if (sizes === null || n === 0)
    return { ok: true, chances: equalChances(members.length, n), openings: n, says: [] };
  const own = Float64Array.from(members, (unit) => sizes[unit]!);
  if (request.design === 'replicated') return replicateChances(own, n, request.replicates);
  return { ok: true, chances: chancesBySize(own, n), openings: n, says: [] };
}

function spaceFor({ population, drawn }: Frame, request: SelectionRequest): Said<Points | null> {
  if (request.design !== 'balanced') return { value: null, says: [] };
  const { points, says } = spaceOf(population, drawn, request.withAzimuth);
  return { value: points, says };
}

/** Settles frame, strata, openings and chances of a request, or says why there is no such sample. */
export function prepare(
  population: Population,
  request: SelectionRequest,
): Outcome<{ ready: Prepared }> {
  const wrong = wrongWith(request);
  if (wrong.length > 0) return refused(...wrong);
  const framed = frameOf(population, request.exclusions, request.mustInclude);
  if (!framed.ok) return framed;
  const { frame } = framed;
  const strata = divided(frame, request);
  const rows = strataTable(strata.value, population);
  const shared = sharedOut(rows, frame, request);
  if (!shared.ok) return shared;
  const sized = drawsBySize(request)
    ? sizesOf(population, frame.drawn, request.sizeFloor)
    : { ok: true as const, sizes: null, says: [] };
  if (!sized.ok) return sized;
  const space = spaceFor(frame, request);
  const prepared: PreparedStratum[] = [];
  const says = [
    framed,
    strata,
    { says: saysSmall(rows, population.unit) },
    shared,
    sized,
    space,
  ].flatMap((one) => one.says);
  for (const [h, members] of strata.value.members.entries()) {
    const found = chancesOf(members, shared.sizes[h]!, sized.sizes, request);
    if (!found.ok) return found;
    says.push(...found.says);
    prepared.push({ row: rows[h]!, members, openings: found.openings, chances: found.chances });
  }
  const { merged } = strata.value;
  return {
    ok: true,
    ready: { population, request, frame, merged, strata: prepared, space: space.value },
    says,
  };
}
