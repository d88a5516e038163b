import { fold } from '../place/fold.ts';
import { buildingColumns, type ColumnRule, wallColumns } from '../read/schema.ts';
import type { ColumnMap, MappedColumn, WallGroup } from './column-map.ts';
import { type ColumnUnit, unitNamed } from './units.ts';

/** How one record of a file becomes one row of a table; `wall columns` sheets have a plan for each wall. */
export interface Plan {
  /** By rule of the table (buildingColumns or wallColumns of read/schema.ts, same order); null where nothing fills it. */
  readonly cells: readonly (PlannedCell | null)[];
  /** Positions that must not all be blank for the record to hold such a row; empty: every record does. */
  readonly heldBy: readonly number[];
  /** Names the wall where the file does not: `north`. */
  readonly wall: string | null;
  /** Positions kept as they are: a wall's in sheets with a row for each, else the building's. */
  readonly extras: readonly ExtraColumn[];
}

export interface PlannedCell {
  /** Column of the file; −1 for a constant. */
  readonly position: number;
  readonly heading: string;
  readonly constant?: string;
  /** contract = number × factor + offset. */
  readonly factor: number;
  readonly offset: number;
  /** The unit of the column map (`ft`) and its label in sentences; null for the contract's own. */
  readonly unit: { readonly key: string; readonly label: string } | null;
  /** The user's own words, folded (place/fold.ts), to the contract's; null: no record. */
  readonly words: ReadonlyMap<string, string | null> | null;
}

/** A column of the file that no column of the contract takes. */
interface ExtraColumn {
  /** The heading as written, made unique; `column_7` where it is blank. */
  readonly name: string;
  readonly position: number;
  readonly unnamed: boolean;
}

interface Placed extends MappedColumn {
  readonly position: number;
}

type Table = 'building' | 'wall';

const placed = (map: ColumnMap): readonly Placed[] =>
  map.columns.map((column, position) => ({ ...column, position }));

const same: ColumnUnit = { unit: '', label: '', factor: 1, offset: 0, currency: null };

function wordsFor(map: ColumnMap, column: string): PlannedCell['words'] {
  const own = Object.entries(map.words[column] ?? {});
  return own.length === 0 ? null : new Map(own.map(([value, word]) => [fold(value), word]));
}

function cellOf(map: ColumnMap, column: string, { position, heading, unit }: Placed): PlannedCell {
  const found = unitNamed(column, unit);
  if (!found && unit !== null) throw new Error(`${column} is not given in ${unit}`);
  const { factor, offset, label } = found ?? same;
  const words = wordsFor(map, column);
  return {
    position,
    heading,
    factor,
    offset,
    unit: unit === null ? null : { key: unit, label },
    words,
  };
}

const constantCell = (constant: string): PlannedCell => ({
  position: -1,
  heading: '',
  constant,
  factor: 1,
  offset: 0,
  unit: null,
  words: null,
});

/** The currency that the unit of an amount names, for sheets without a column of currencies. */
const currencyIn = (map: ColumnMap): string | null => {
  const amount = map.columns.find(({ fills }) => fills?.column === 'insured_value');
  return (amount && unitNamed('insured_value', amount.unit)?.currency) ?? null;
};

/** Distinct whatever the case, since the engine's column names ignore case: `Key`, `key (2)`. */
function unique(name: string, taken: Map<string, number>): string {
  const key = name.toLowerCase();
  let times = taken.get(key) ?? 0;
  let candidate = name;
  for (; taken.has(candidate.toLowerCase()); candidate = `${name} (${times})`) times += 1;
  taken.set(key, Math.max(times, 1));
  if (candidate !== name) taken.set(candidate.toLowerCase(), 1);
  return candidate;
}

function extrasOf(columns: readonly Placed[], used: ReadonlySet<number>): readonly ExtraColumn[] {
  const taken = new Map<string, number>();
  return columns.flatMap(({ heading, position }) => {
    if (used.has(position)) return [];
    const name = unique(heading.trim() || `column_${position + 1}`, taken);
    return [{ name, position, unnamed: heading.trim() === '' }];
  });
}

const cellsBy = (
  rules: readonly ColumnRule[],
  find: (column: string) => PlannedCell | null,
): readonly (PlannedCell | null)[] =>
  rules.map(({ name, derived }) => (derived ? null : find(name)));

const positionsIn = (cells: readonly (PlannedCell | null)[]): number[] =>
  cells.flatMap((cell) => (cell && cell.position >= 0 ? [cell.position] : []));

const fillsIn =
  (columns: readonly Placed[], table: Table, wall: string | null) =>
  (column: string): Placed | undefined =>
    columns.find(
      ({ fills, wall: of }) => fills?.table === table && fills.column === column && of === wall,
    );

/** What fills a column of either table, whatever the shape. */
const usedBy = (columns: readonly Placed[], tables: readonly Table[]): ReadonlySet<number> =>
  new Set(
    columns.flatMap(({ fills, position }) =>
      fills && tables.includes(fills.table) ? [position] : [],
    ),
  );

function buildingPlan(map: ColumnMap): Plan {
  const columns = placed(map);
  const find = fillsIn(columns, 'building', null);
  const currency = currencyIn(map);
  const cells = cellsBy(buildingColumns, (column) => {
    const from = find(column);
    if (from) return cellOf(map, column, from);
    return column === 'currency' && currency ? constantCell(currency) : null;
  });
  const used = usedBy(columns, map.shape === 'buildings' ? ['building'] : ['building', 'wall']);
  return { cells, heldBy: [], wall: null, extras: extrasOf(columns, used) };
}

const buildingId = wallColumns.findIndex(({ name }) => name === 'building_id');

/** The wall of a record, or one of them: its own columns, then what the record says of all its walls. */
function wallPlan(map: ColumnMap, group: WallGroup | null): Plan {
  const columns = placed(map);
  const ofWall = fillsIn(columns, 'wall', group?.wall ?? null);
  const ofAll = fillsIn(columns, 'wall', null);
  const ofBuilding = fillsIn(columns, 'building', null);
  const cells = cellsBy(wallColumns, (column) => {
    const said = group?.says[column];
    const own = ofWall(column) ?? (said === undefined ? ofAll(column) : undefined);
    const from = own ?? (column === 'building_id' ? ofBuilding(column) : undefined);
    if (from) return cellOf(map, column, from);
    return said === undefined ? null : constantCell(said);
  });
  const own = group ? columns.filter(({ fills, wall }) => fills && wall === group.wall) : null;
  const id = cells[buildingId]?.position;
  const heldBy = own?.map(({ position }) => position) ?? positionsIn(cells).filter((p) => p !== id);
  const used = usedBy(columns, map.shape === 'walls' ? ['wall'] : ['building', 'wall']);
  const extras = map.shape === 'wall columns' ? [] : extrasOf(columns, used);
  return { cells, heldBy: map.shape === 'walls' ? [] : heldBy, wall: group?.wall ?? null, extras };
}

/**
 * How each record of a file with this map is read as rows of a table: no plan where the sheet holds none of them, one plan
 * a wall in `wall columns` sheets. Throws when the map names a unit that its column has not: a mistake in our code, for
 * maps from files are checked when read.
 */
export function planOf(map: ColumnMap, table: Table): readonly Plan[] {
  if (table === 'building') return map.shape === 'walls' ? [] : [buildingPlan(map)];
  if (map.shape === 'buildings') return [];
  if (map.shape !== 'wall columns') return [wallPlan(map, null)];
  return map.groups.map((group) => wallPlan(map, group));
}
