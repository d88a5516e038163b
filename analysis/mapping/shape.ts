import { assigned, wallOf } from './assign.ts';
import type { Candidate } from './candidates.ts';
import type { SheetShape, WallGroup } from './column-map.ts';
import type { Profile } from './profile.ts';
import { differsWithin, rowsOfOneBuilding, shareRepeated } from './repeats.ts';

/** A candidate that was taken, and the wall it describes in a sheet with several walls a row. */
export interface Fill {
  readonly from: Candidate;
  readonly table: Candidate['table'];
  readonly column: string;
  readonly wall: string | null;
}

interface Shaped {
  readonly shape: SheetShape;
  readonly fills: readonly Fill[];
  readonly groups: readonly WallGroup[];
}

/** A sheet with its meaning, and the table whose identifiers it holds. */
export interface Settled extends Shaped {
  readonly of: 'building' | 'wall';
}

const fillOf = (from: Candidate, wall = wallOf(from)): Fill => ({
  from,
  table: from.table,
  column: from.column,
  wall,
});

/** Confidence in a material column above which a list of buildings is taken to record walls too. Judgement. */
const sureOfWalls = 0.55;

type Kind = NonNullable<Candidate['group']>['kind'];

/** Numbered and ranked walls need a material somewhere, a single direction too: else the words mean something else. */
function isGroupKind(kind: Kind, grouped: readonly Candidate[]): boolean {
  const own = grouped.filter((one) => one.group?.kind === kind);
  if (kind === 'material' || own.some(({ column }) => column === 'material')) return true;
  return kind === 'direction' && new Set(own.map(wallOf)).size > 1;
}

function withoutFalseGroups(candidates: readonly Candidate[]): readonly Candidate[] {
  const grouped = candidates.filter(({ group }) => group !== null);
  return candidates.filter(({ group }) => group === null || isGroupKind(group.kind, grouped));
}

/** Of `wall columns` sheets: what one record may say of all its walls. */
const shared = new Set(
  'material,installed,drainage,gap_mm,drainage_eff_pct,sheathing,coating,source,recorded_on'.split(
    ',',
  ),
);

function groupsOf(taken: readonly Candidate[]): WallGroup[] {
  const groups = taken.flatMap(({ group }) => group ?? []).toSorted((a, b) => a.order - b.order);
  return [...new Map(groups.map(({ group }) => [group.wall, group])).values()];
}

/**
 * Facts of the walls that name none: of every wall where the walls are directions, for they are then said of the building;
 * of the first where walls are counted; else unsettled, since what lies behind stucco need not lie behind brick.
 */
function besideGroups(taken: readonly Candidate[], groups: readonly WallGroup[]): Fill[] {
  const all = groups.every(({ says }) => says.azimuth_deg !== undefined);
  const first = groups.find(({ says }) => Object.keys(says).length === 0);
  const owned = new Set(taken.map((one) => `${one.column}.${wallOf(one)}`));
  return taken.flatMap((one): Fill[] => {
    if (one.table === 'building' || one.group !== null) return [fillOf(one)];
    if (one.column === 'building_id') return [fillOf(one)];
    if (!shared.has(one.column)) return [];
    if (all) return [fillOf(one, null)];
    return first && !owned.has(`${one.column}.${first.wall}`) ? [fillOf(one, first.wall)] : [];
  });
}

/** The walls of one record side by side. */
function sideBySide(taken: readonly Candidate[]): Shaped {
  const groups = groupsOf(taken);
  return { shape: 'wall columns', fills: besideGroups(taken, groups), groups };
}

/** The one recorded wall of a building. A plain area beside it is more likely that of its floors. */
function oneWall(taken: readonly Candidate[]): Shaped {
  const fills = taken
    .filter((one) => one.table === 'building' || one.column !== 'area_m2' || one.confidence === 1)
    .map((one) => fillOf(one, one.table === 'wall' ? '1' : null));
  return { shape: 'wall columns', fills, groups: [{ wall: '1', says: {} }] };
}

/** Facts that buildings and walls both have: where they differ within a building, they are the wall's. */
const counterparts: Readonly<Record<string, string>> = {
  wall_area_m2: 'area_m2',
  overhang_mm: 'overhang_mm',
  reclad_year: 'installed',
};

function rowByRow(taken: readonly Candidate[]): Shaped {
  const id = idOf(taken);
  const owned = new Set(taken.filter(({ table }) => table === 'wall').map(({ column }) => column));
  const fills = taken.map((one): Fill => {
    const column = one.table === 'building' ? counterparts[one.column] : undefined;
    return column !== undefined && id && !owned.has(column) && differsWithin(id, one.profile)
      ? { from: one, table: 'wall', column, wall: null }
      : fillOf(one);
  });
  return { shape: 'wall rows', fills, groups: [] };
}

const idOf = (taken: readonly Candidate[]): Profile | undefined =>
  taken.find(({ column }) => column === 'building_id')?.profile;

/** Whether each record is one wall: records of one building follow each other, or a column says which wall it is. */
function isWallRow(taken: readonly Candidate[]): boolean {
  const has = (column: string) =>
    taken.some((one) => one.table === 'wall' && one.column === column);
  if (!has('material') && !(has('azimuth_deg') && has('area_m2'))) return false;
  if (has('azimuth_deg') || has('wall_id')) return true;
  const id = idOf(taken);
  const own = taken.filter((one) => one.table === 'building' && !(one.column in counterparts));
  return (
    id !== undefined &&
    rowsOfOneBuilding(
      id,
      own.map(({ profile }) => profile),
    )
  );
}

/** From this share of repeats on, an identifier is one of buildings with several rows. Judgement. */
const repeatsOften = 0.5;

/**
 * Where each record is a wall, what differs from row to row names the walls; the buildings are named by what repeats,
 * if there is such a column.
 */
function withRepeatingId(
  candidates: readonly Candidate[],
  taken: readonly Candidate[],
): readonly Candidate[] {
  const isId = (one: Candidate) => one.table === 'building' && one.column === 'building_id';
  const unique = taken.find((one) => isId(one) && shareRepeated(one.profile) === 0);
  const [named] = candidates
    .filter((one) => isId(one) && shareRepeated(one.profile) >= repeatsOften)
    .toSorted((a, b) => b.confidence - a.confidence);
  if (!unique || !named) return taken;
  const rest = taken.filter((one) => one !== unique && one.profile !== named.profile);
  const ofWall = {
    ...unique,
    table: 'wall',
    column: 'wall_id',
    why: 'differs in every row',
  } as const;
  const hasWallId = rest.some(({ column }) => column === 'wall_id');
  return [...rest, named, ...(hasWallId ? [] : [ofWall])];
}

const ofBuilding = ({ table }: Candidate): boolean => table === 'building';

/** In a list of buildings, columns of both tables are the building's. */
const bothTables = new Set(['building_id', 'overhang_mm']);

function listOfBuildings(candidates: readonly Candidate[]): Shaped {
  const known = withoutFalseGroups(candidates).filter(
    ({ table, column, group }) => table === 'building' || group !== null || !bothTables.has(column),
  );
  const taken = assigned(known);
  if (taken.some(({ group }) => group !== null)) return sideBySide(taken);
  if (isWallRow(taken)) return rowByRow(withRepeatingId(known, taken));
  const walls = taken.some(
    ({ column, confidence }) => column === 'material' && confidence >= sureOfWalls,
  );
  if (walls) return oneWall(taken);
  const fills = assigned(known.filter(ofBuilding)).map((one) => fillOf(one));
  return { shape: 'buildings', fills, groups: [] };
}

function listOfWalls(candidates: readonly Candidate[]): Shaped {
  const taken = assigned(withoutFalseGroups(candidates).filter(({ table }) => table === 'wall'));
  if (taken.some(({ group }) => group !== null)) return sideBySide(taken);
  return { shape: 'walls', fills: taken.map((one) => fillOf(one)), groups: [] };
}

const fillsOne = ({ fills }: Shaped, table: string, column: string): boolean =>
  fills.some((fill) => fill.table === table && fill.column === column);

/** A sheet that says where its buildings stand is a list of buildings; one of materials without places is of walls. */
function likelier(buildings: Settled, walls: Settled): Settled {
  const placed =
    fillsOne(buildings, 'building', 'postal_code') || fillsOne(buildings, 'building', 'latitude');
  return !placed && fillsOne(walls, 'wall', 'material') ? walls : buildings;
}

/** What a sheet holds and which columns of it fill what. */
export function shaped(
  candidates: readonly Candidate[],
  wanted: 'buildings' | 'walls' | 'any',
): Settled {
  const walls = (): Settled => ({ ...listOfWalls(candidates), of: 'wall' });
  if (wanted === 'walls') return walls();
  const buildings: Settled = { ...listOfBuildings(candidates), of: 'building' };
  return wanted === 'buildings' ? buildings : likelier(buildings, walls());
}
