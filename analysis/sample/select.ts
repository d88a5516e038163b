import { type Drawn, drawer, drawReplacements } from './draw.ts';
import type { Frame } from './frame.ts';
import { type Prepared, type PreparedStratum, prepare } from './prepare.ts';
import { seeded } from './random.ts';
import type { SelectionRequest } from './request.ts';
import type { Points } from './space.ts';
import { type Strata, stratumRow } from './strata.ts';
import {
  counted,
  type Outcome,
  type Population,
  type SelectedUnit,
  type StratumRow,
} from './types.ts';

/** Name of the stratum of units that are selected whatever the draw. */
export const mustIncludeStratum = 'to be included';

/** A drawn sample with everything that its plan states. */
export interface Selection {
  /** Units to be included first, then those drawn by stratum, then the replacements by stratum, in order. */
  readonly units: readonly SelectedUnit[];
  /** The frame: every stratum, and how many openings it got. */
  readonly strata: readonly (StratumRow & { readonly openings: number })[];
  readonly merged: Strata['merged'];
  readonly excluded: Frame['excluded'];
  /** Whether every unit of the frame had a known chance above 0. */
  readonly probabilitySample: boolean;
  /** Units left to chance, by ordinal, with their chances and, for balanced samples, their places in the space. */
  readonly chances: { readonly units: Int32Array; readonly of: Float64Array };
  readonly space: Points | null;
}

interface Chance {
  readonly probability: number;
  readonly weight: number;
}

const unknownChance: Chance = { probability: Number.NaN, weight: Number.NaN };

/** Of the units a draw took; unknown where a distance was kept. */
function chanceOf(
  { request }: Prepared,
  { chances }: PreparedStratum,
  { member, replicate }: Drawn,
): Chance {
  if (request.minimumDistanceKm > 0) return unknownChance;
  const probability = chances[member]!;
  const draws = replicate === null ? 1 : request.replicates;
  return { probability, weight: 1 / (probability * draws) };
}

type RowOf = (unit: number) => Pick<SelectedUnit, 'unit' | 'id' | 'cluster' | 'areaM2' | 'place'>;

/** Makes rows of the plan, but for how the unit came to be there. */
function rowMaker({ population, frame, space }: Prepared): RowOf {
  const placeIn = new Map(Array.from(space ? frame.drawn : [], (unit, row) => [unit, row]));
  const placeOf = (unit: number): number[] => {
    const row = placeIn.get(unit);
    if (!space || row === undefined) return [];
    return Array.from(space.at.subarray(row * space.dimensions, (row + 1) * space.dimensions));
  };
  return (unit) => ({
    unit,
    id: population.id[unit]!,
    cluster: population.cluster[unit]!,
    areaM2: population.areaM2[unit]!,
    place: placeOf(unit),
  });
}

const certainUnits = ({ frame }: Prepared, rowOf: RowOf): SelectedUnit[] =>
  Array.from(frame.mustInclude, (unit) => ({
    ...rowOf(unit),
    stratum: mustIncludeStratum,
    probability: 1,
    weight: 1,
    certainty: true,
    replicate: null,
    replacementOrder: null,
  }));

const drawnUnits = (ready: Prepared, rowOf: RowOf, sample: readonly Drawn[]): SelectedUnit[] =>
  sample.map((one) => {
    const stratum = ready.strata[one.stratum]!;
    const chance = chanceOf(ready, stratum, one);
    return {
      ...rowOf(one.unit),
      stratum: stratum.row.stratum,
      ...chance,
      certainty: chance.probability === 1,
      replicate: one.replicate,
      replacementOrder: null,
    };
  });

function replacementUnits(
  { strata }: Prepared,
  rowOf: RowOf,
  spare: readonly Drawn[],
): SelectedUnit[] {
  const seen = new Map<number, number>();
  return spare.map(({ unit, stratum }) => {
    const order = (seen.get(stratum) ?? 0) + 1;
    seen.set(stratum, order);
    return {
      ...rowOf(unit),
      stratum: strata[stratum]!.row.stratum,
      ...unknownChance,
      certainty: false,
      replicate: null,
      replacementOrder: order,
    };
  });
}

function strataOf({ strata, frame, population }: Prepared): Selection['strata'] {
  const { mustInclude } = frame;
  const certain = {
    ...stratumRow(mustIncludeStratum, mustInclude, population),
    openings: mustInclude.length,
  };
  const rows = strata.map(({ row, openings }) => ({ ...row, openings }));
  return [...(mustInclude.length > 0 ? [certain] : []), ...rows.filter(({ units }) => units > 0)];
}

/** Chances of all units left to chance, in order of id; NaN where a distance was kept. */
function allChances({ strata, frame, request, population }: Prepared): Selection['chances'] {
  const of = new Float64Array(population.n).fill(Number.NaN);
  for (const { members, chances } of strata)
    for (const [k, unit] of members.entries()) of[unit] = chances[k]!;
  if (request.minimumDistanceKm > 0) of.fill(Number.NaN);
  return { units: frame.drawn, of: Float64Array.from(frame.drawn, (unit) => of[unit]!) };
}

/** Whether every unit has a known chance above 0. */
const hasChances = ({ request, strata }: Prepared): boolean =>
  request.minimumDistanceKm === 0 &&
  strata.every(({ members, openings }) => openings > 0 || members.length === 0);

function saysOfDraw(ready: Prepared, sample: readonly Drawn[], spare: readonly Drawn[]): string[] {
  const { strata, request, population } = ready;
  const says: string[] = [];
  const wanted = strata.reduce((sum, { openings }) => sum + openings, 0);
  if (sample.length < wanted)
    says.push(
      `Only ${sample.length} of ${counted(wanted, 'opening')} keep ${request.minimumDistanceKm} km from each other; ${population.unit}s without a place are passed over.`,
    );
  if (request.minimumDistanceKm > 0)
    says.push(
      'Not a probability sample: a minimum distance was kept, so the chances are not known unless they are estimated by redrawing.',
    );
  const distinct = new Set(sample.map(({ unit }) => unit)).size;
  if (distinct < sample.length)
    says.push(
      `The independent draws took some ${population.unit}s more than once: ${sample.length} selections stand on ${counted(distinct, population.unit)}.`,
    );
  const asked =
    strata.filter(({ openings }) => openings > 0).length * request.replacementsPerStratum;
  if (spare.length < asked)
    says.push(
      `Only ${counted(spare.length, 'replacement')} of ${asked} could be drawn: some strata have no more.`,
    );
  return says;
}

/**
 * Draws the sample of a request. The same population, request and seed give the same units in every engine and whatever
 * the order of the rows; what the user's input spoils comes back as sentences.
 */
export function select(
  population: Population,
  request: SelectionRequest,
): Outcome<{ selection: Selection }> {
  const prepared = prepare(population, request);
  if (!prepared.ok) return prepared;
  const { ready } = prepared;
  const random = seeded(request.seed);
  const sample = drawer(ready)(random);
  const spare = drawReplacements(ready, sample, random);
  const rowOf = rowMaker(ready);
  const selection = {
    units: [
      ...certainUnits(ready, rowOf),
      ...drawnUnits(ready, rowOf, sample),
      ...replacementUnits(ready, rowOf, spare),
    ],
    strata: strataOf(ready),
    merged: ready.merged,
    excluded: ready.frame.excluded,
    probabilitySample: hasChances(ready),
    chances: allChances(ready),
    space: ready.space,
  };
  return { ok: true, selection, says: [...prepared.says, ...saysOfDraw(ready, sample, spare)] };
}
