import { type Columns, texts } from '../columns.ts';
import type { Answer, Selected } from './answer.ts';
import type { PlannedUnit, PlanOutline } from './plan.ts';
import { isSoftened, type Standing, standings } from './standing.ts';

/** What came back of a plan. Units, each once, but for `outsideRows`. */
export interface Response {
  readonly selected: number;
  readonly answered: number;
  /** Selected, gone to and not reached. */
  readonly notAccessible: number;
  /** Selected, and nothing on record that shows the sheathing. */
  readonly unanswered: number;
  /** Share of the selected units that answered; NaN without any. */
  readonly rate: number;
  readonly replacementsAnswered: number;
  /** Findings that belong to no selected unit of this plan, kept out of every estimate. */
  readonly outsideRows: number;
}

export interface Responses {
  readonly response: Response;
  readonly selected: readonly Selected[];
  /** Answers of the selected units, and of their replacements. */
  readonly answers: readonly Answer[];
  readonly replacements: readonly Answer[];
  /** Walls whose openings disagree: a sentence each. */
  readonly says: readonly string[];
}

/** The places where a finding may answer for a unit: one wall, or any of the building. */
const placeOf = (building: string, wall: string | null): string => JSON.stringify([building, wall]);
const placesOf = (units: readonly PlannedUnit[]): ReadonlySet<string> =>
  new Set(units.map(({ cluster, wall }) => placeOf(cluster, wall)));

/** The worst of what the unit's walls showed; null where nothing was seen. */
function softenedOf(unit: PlannedUnit, walls: ReadonlyMap<string, readonly Standing[]>) {
  const own = (walls.get(unit.cluster) ?? []).filter(
    ({ wall }) => unit.wall === null || wall === unit.wall,
  );
  const seen = own.flatMap((one) => (one.seen === null ? [] : [isSoftened(one.seen)]));
  return {
    softened: seen.length === 0 ? null : seen.includes(true),
    notAccessible: own.some((one) => one.notAccessible),
  };
}

/** Missing areas are taken as the mean of those on record: no wall weighs nothing. */
function areaFiller(units: readonly PlannedUnit[]): (area: number) => number {
  const known = units.map(({ areaM2 }) => areaM2).filter((area) => area > 0);
  const mean = known.length > 0 ? known.reduce((sum, area) => sum + area, 0) / known.length : 1;
  return (area) => (area > 0 ? area : mean);
}

/** Chance of a replacement: its own where the plan gives one, else that of the units it may stand for. */
function chanceOf(unit: PlannedUnit, { units }: PlanOutline): number {
  if (unit.probability > 0) return unit.probability;
  const peers = units.filter(
    (one) => one.replacementOrder === null && one.stratum === unit.stratum && !one.certainty,
  );
  const expansion = peers.reduce((sum, { probability }) => sum + 1 / probability, 0);
  return peers.length > 0 ? peers.length / expansion : 1;
}

/** Selected units by stratum and certainty, and the units of the frame for which they speak. */
function selectedKinds({ strata, units }: PlanOutline): Selected[] {
  const primary = units.filter(({ replacementOrder }) => replacementOrder === null);
  const stray = primary.find((one) => !strata.some(({ stratum }) => stratum === one.stratum));
  if (stray) throw new Error(`unit ${stray.id} is in no stratum of the frame: ${stray.stratum}`);
  return strata.flatMap(({ stratum, units: size }) => {
    const own = primary.filter((one) => one.stratum === stratum);
    const certain = own.filter((one) => one.certainty).length;
    return [true, false].flatMap((certainty): Selected[] => {
      const alike = own.filter((one) => one.certainty === certainty);
      if (alike.length === 0) return [];
      const expansion = alike.reduce((sum, { probability }) => sum + 1 / probability, 0);
      const speaksFor = certainty ? certain : size - certain;
      return [{ stratum, certainty, size: speaksFor, selected: alike.length, expansion }];
    });
  });
}

function answersOf(
  units: readonly PlannedUnit[],
  plan: PlanOutline,
  walls: ReadonlyMap<string, readonly Standing[]>,
): Answer[] {
  const areaOf = areaFiller(plan.units);
  return units.flatMap((unit) => {
    const { softened } = softenedOf(unit, walls);
    if (softened === null) return [];
    const { id, stratum, cluster, certainty, replicate, place } = unit;
    const probability = chanceOf(unit, plan);
    const drawn = { stratum, cluster, certainty, replicate, place, probability };
    return [{ ...drawn, unit: id, areaM2: areaOf(unit.areaM2), softened }];
  });
}

/** In replicated draws a replacement takes the place of a missing unit of its stratum, one after another. */
function inPlace(spare: readonly PlannedUnit[], missing: readonly PlannedUnit[]): PlannedUnit[] {
  const open = [...missing];
  return spare.map((unit) => {
    const k = open.findIndex((one) => one.stratum === unit.stratum && one.replicate !== null);
    const [left] = k < 0 ? [] : open.splice(k, 1);
    return { ...unit, replicate: left?.replicate ?? unit.replicate };
  });
}

/** Units chosen for comparison, such as a sheltered wall, have no chance and are in no estimate. */
const byChance = ({ probability, replacementOrder }: PlannedUnit): boolean =>
  probability > 0 || replacementOrder !== null;

/** Which rows of the findings name this plan and a wall that it selected. */
function belonging({ planId, units }: PlanOutline, findings: Columns): (place: number) => boolean {
  const known = placesOf(units);
  const [buildings, names] = [texts(findings, 'building_id'), texts(findings, 'wall_id')];
  const plans = texts(findings, 'plan_id');
  return (place) =>
    plans[place] === planId &&
    [names[place]!, null].some((wall) => known.has(placeOf(buildings[place]!, wall)));
}

function byBuilding(walls: readonly Standing[]): ReadonlyMap<string, readonly Standing[]> {
  const found = new Map<string, Standing[]>();
  for (const one of walls) found.set(one.building, [...(found.get(one.building) ?? []), one]);
  return found;
}

/** Puts findings beside the units of their plan; what names another plan, none, or a wall not selected stays outside. */
export function respond(outline: PlanOutline, findings: Columns): Responses {
  const plan = { ...outline, units: outline.units.filter(byChance) };
  const { walls, says } = standings(findings, belonging(plan, findings));
  const of = byBuilding(walls);
  const silent = (unit: PlannedUnit) => softenedOf(unit, of).softened === null;
  const primary = plan.units.filter(({ replacementOrder }) => replacementOrder === null);
  const spare = plan.units.filter((unit) => unit.replacementOrder !== null && !silent(unit));
  const units = [...new Map(primary.map((unit) => [unit.id, unit])).values()];
  const missing = units.filter(silent);
  const replacements = inPlace(spare, primary.filter(silent));
  return {
    response: {
      selected: units.length,
      answered: units.length - missing.length,
      notAccessible: missing.filter((unit) => softenedOf(unit, of).notAccessible).length,
      unanswered: missing.length,
      rate: 1 - missing.length / units.length,
      replacementsAnswered: replacements.length,
      outsideRows: findings.n - walls.reduce((sum, { places }) => sum + places.length, 0),
    },
    selected: selectedKinds(plan),
    answers: answersOf(primary, plan, of),
    replacements: answersOf(replacements, plan, of),
    says,
  };
}
