import { type Columns, numbers, texts } from '../columns.ts';

/** Conditions of the sheathing, from best to worst. */
const conditions = ['sound', 'stained', 'softened', 'decayed'] as const;
type Condition = (typeof conditions)[number];

const isCondition = (text: string | null): text is Condition =>
  conditions.some((condition) => condition === text);

/** Whether the sheathing has lost strength: what the estimates are of. */
export const isSoftened = (condition: Condition): boolean =>
  condition === 'softened' || condition === 'decayed';

/** What the findings of one wall come to. */
export interface Standing {
  readonly building: string;
  readonly wall: string;
  /** The worst condition of the sheathing that an opening showed; null where none showed it. */
  readonly seen: Condition | null;
  /** The condition each opening showed, in the order of the file. */
  readonly conditions: readonly Condition[];
  /** Whether someone came and could not reach the wall. */
  readonly notAccessible: boolean;
  readonly plans: ReadonlySet<string>;
  /** Places of all its findings in the table: the ones that do not stand are kept too. */
  readonly places: readonly number[];
}

export interface Standings {
  readonly walls: readonly Standing[];
  /** A sentence for each wall whose openings disagree on whether the sheathing is softened or decayed. */
  readonly says: readonly string[];
}

const worst = (seen: readonly Condition[]): Condition | null =>
  seen.length === 0 ? null : conditions[Math.max(...seen.map((one) => conditions.indexOf(one)))]!;

function standing(table: Columns, places: readonly number[]): Standing {
  const at = (name: string) => places.map((place) => texts(table, name)[place] ?? null);
  const sighted = at('sheathing_seen').map((text) => text === 'yes');
  const seen = at('condition')
    .filter((text, i) => sighted[i] && text !== null)
    .filter(isCondition);
  return {
    building: at('building_id')[0]!,
    wall: at('wall_id')[0]!,
    seen: worst(seen),
    conditions: seen,
    notAccessible: at('not_accessible').includes('yes'),
    plans: new Set(at('plan_id').filter((id) => id !== null)),
    places,
  };
}

function disagreement(table: Columns, one: Standing): string | null {
  if (new Set(one.conditions.map(isSoftened)).size < 2) return null;
  const rows = numbers(table, 'row');
  const listed = one.places
    .filter((place) => texts(table, 'sheathing_seen')[place] === 'yes')
    .map((place) => `${texts(table, 'condition')[place] ?? 'no condition'} (row ${rows[place]})`);
  return `Wall ${one.wall} of building ${one.building} was seen more than once, with different results: ${listed.join(', ')}. The worst, ${one.seen}, stands; the others are kept.`;
}

/** The places of all rows by the wall that they speak of, in the order of the file. */
function placesByWall(table: Columns, counts: (place: number) => boolean): Map<string, number[]> {
  const [buildings, names] = [texts(table, 'building_id'), texts(table, 'wall_id')];
  const places = new Map<string, number[]>();
  for (let place = 0; place < table.n; place += 1) {
    if (!counts(place)) continue;
    const key = JSON.stringify([buildings[place], names[place]]);
    places.set(key, [...(places.get(key) ?? []), place]);
  }
  return places;
}

/** Findings by wall, of the rows that count: the worst condition seen stands, all are kept. */
export function standings(
  table: Columns,
  counts: (place: number) => boolean = () => true,
): Standings {
  const walls = [...placesByWall(table, counts).values()].map((each) => standing(table, each));
  return { walls, says: walls.flatMap((one) => disagreement(table, one) ?? []) };
}
