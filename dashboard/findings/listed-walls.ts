import type { Analyst, BuildingDetail } from '../../analysis/session-types.ts';
import type { Learnt } from '../../analysis/survey/learn.ts';
import { unitId } from '../../analysis/survey/walls.ts';
import { findBuilding } from './find-building.ts';

/** A wall that is not opened yet, as the list names it. */
export interface ListedWall {
  readonly unit: string;
  /** Null where it is not among the most undecided. */
  readonly worth: number | null;
  readonly thresholds: readonly number[];
  /** Calibrated chance of softened or decayed sheathing; null where it was not learnt. */
  readonly chance: number | null;
}

export type ListOrder = 'undecided' | 'chance';

/** Walls in the order asked for: those whose opening would settle most, or those with the highest chance. */
export function listedWalls(learnt: Learnt, order: ListOrder): readonly ListedWall[] {
  const undecided = learnt.undecided.map(({ unit, worth, thresholds }) => ({
    unit,
    worth,
    thresholds,
    chance: learnt.chances[unit] ?? null,
  }));
  if (order === 'undecided') return undecided;
  const known = new Map(undecided.map((one) => [one.unit, one]));
  return Object.entries(learnt.chances)
    .sort(([a, p], [b, q]) => q - p || (a < b ? -1 : 1))
    .map(([unit, chance]) => known.get(unit) ?? { unit, worth: null, thresholds: [], chance });
}

/** Building and wall that a unit may name: either id may hold what stands between them. */
export function namesIn(unit: string): readonly (readonly [building: string, wall: string])[] {
  const mark = unitId('', '');
  const parts = unit.split(mark);
  return parts
    .slice(1)
    .map((_, i) => [parts.slice(0, i + 1).join(mark), parts.slice(i + 1).join(mark)] as const);
}

export interface FoundWall {
  readonly b: number;
  readonly building: string;
  readonly wall: BuildingDetail['walls'][number];
}

/** The wall behind a unit as the ranking knows it; null where there is none. */
export async function findWall(
  analyst: Pick<Analyst, 'order' | 'rows' | 'building'>,
  unit: string,
): Promise<FoundWall | null> {
  for (const [building, name] of namesIn(unit)) {
    const b = await findBuilding(analyst, building);
    if (b === null) continue;
    const { walls } = await analyst.building(b);
    const wall = walls.find(({ wall_id, kind }) => wall_id === name && kind !== 'superseded');
    if (wall) return { b, building, wall };
  }
  return null;
}

/** Tier whose threshold is meant, by the constants in use. */
export function thresholdWords(
  thresholds: readonly number[],
  constants: Readonly<Record<string, number>>,
): string {
  const names: readonly (readonly [string, string])[] = [
    ['tier_first_look', 'First look'],
    ['tier_next_look', 'Next look'],
    ['tier_keep_watch', 'Keep watch'],
  ];
  return thresholds
    .map((threshold) => {
      const name = names.find(([constant]) => constants[constant] === threshold)?.[1];
      return name ? `${name} (${threshold})` : `${threshold}`;
    })
    .join(', ');
}
