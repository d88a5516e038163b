import { clip, quote } from '../read/sentences.ts';
import { wordsOf } from '../read/vocabulary.ts';
import { rulesOf } from './candidates.ts';
import type { ColumnMap, MappedColumn, SheetShape, WallGroup } from './column-map.ts';
import { sheetShapes } from './column-map.ts';
import type { TableName } from './heading-names.ts';
import { unitsFor } from './units.ts';

type Loose = Readonly<Record<string, unknown>>;

const isObject = (value: unknown): value is Loose =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const shown = (value: unknown): string => clip(JSON.stringify(value) ?? 'nothing');

const columnsOf = (table: TableName): readonly string[] =>
  rulesOf[table].flatMap(({ name, derived }) => (derived ? [] : [name]));

const isTable = (table: unknown): table is TableName => table === 'building' || table === 'wall';

const isTextOrNone = (value: unknown): boolean => value == null || typeof value === 'string';

/** The first of the sentences that is one. */
const firstOf = <T>(
  all: readonly T[],
  doubt: (one: T, i: number) => string | null,
): string | null => {
  for (const [i, one] of all.entries()) {
    const sentence = doubt(one, i);
    if (sentence !== null) return sentence;
  }
  return null;
};

function doubtInFills(fills: unknown, where: string): string | null {
  if (fills == null) return null;
  const { table, column } = isObject(fills) ? fills : {};
  if (!isTable(table)) {
    return `${where} fills ${shown(fills)}. Write null, or {"table": "building" or "wall", "column": …}.`;
  }
  return columnsOf(table).some((name) => name === column)
    ? null
    : `${where} fills ${table} column ${shown(column)}, which is not known. Use one of: ${columnsOf(table).join(', ')}.`;
}

function doubtInUnit({ unit, fills }: Loose, where: string): string | null {
  if (unit == null) return null;
  const column = isObject(fills) ? String(fills.column) : '';
  const units = unitsFor(column).map((one) => one.unit);
  if (units.some((one) => one === unit)) return null;
  const use = units.length > 0 ? `Use null or one of: ${units.join(', ')}` : 'Use null';
  return `${where} has the unit ${shown(unit)}, in which ${column || 'an unknown column'} is not given. ${use}.`;
}

function doubtInColumn(column: unknown, i: number, walls: readonly string[]): string | null {
  if (!isObject(column) || typeof column.heading !== 'string') {
    return `column ${i + 1} has no heading. Each column is an object with the heading as the file writes it.`;
  }
  const where = `column ${i + 1} (${quote(column.heading)})`;
  const doubt = doubtInFills(column.fills, where) ?? doubtInUnit(column, where);
  if (doubt !== null) return doubt;
  const { wall } = column;
  if (wall == null || (typeof wall === 'string' && walls.includes(wall))) return null;
  const known =
    walls.length > 0 ? `one of: ${walls.join(', ')}` : 'null, for the map has no groups';
  return `${where} belongs to the wall ${shown(wall)}, which "groups" does not name. Use ${known}.`;
}

function doubtInGroup(group: unknown): string | null {
  if (!isObject(group) || typeof group.wall !== 'string' || group.wall === '') {
    return `${shown(group)} is no group. Each is an object with a "wall" and what its name "says".`;
  }
  const says = group.says ?? {};
  if (!isObject(says)) return `what the name of wall ${quote(group.wall)} says is no object.`;
  return firstOf(Object.entries(says), ([column, value]) =>
    columnsOf('wall').includes(column) && typeof value === 'string'
      ? null
      : `the name of wall ${quote(String(group.wall))} says ${shown(column)}: ${shown(value)}. Use columns of the walls with texts: ${columnsOf('wall').join(', ')}.`,
  );
}

const isKnown = (column: string): boolean =>
  columnsOf('building').includes(column) || columnsOf('wall').includes(column);

function doubtInWords(words: unknown): string | null {
  if (words == null) return null;
  if (!isObject(words)) return '"words" is no object of columns with their words.';
  return firstOf(Object.entries(words), ([column, own]) => {
    if (!isKnown(column) || !isObject(own)) {
      return `"words" names ${quote(column)}, which is no column with an object of words.`;
    }
    const known = wordsOf(column);
    return firstOf(Object.entries(own), ([value, word]) =>
      isTextOrNone(word) && (word == null || known.length === 0 || known.includes(String(word)))
        ? null
        : `"words" reads ${quote(value)} as ${column} ${shown(word)}, which is not known. Use null or one of: ${known.join(', ')}.`,
    );
  });
}

/** A column of the contract that two columns of the file fill. */
function doubtInRepeats(columns: readonly unknown[]): string | null {
  const seen = new Map<string, string>();
  return firstOf(columns, (one) => {
    const { heading, fills, wall } = one as MappedColumn;
    if (!fills) return null;
    const key = `${fills.table}.${fills.column}.${wall ?? ''}`;
    const first = seen.get(key);
    seen.set(key, heading);
    return first === undefined
      ? null
      : `${quote(first)} and ${quote(heading)} both fill ${fills.column}. Leave one of them.`;
  });
}

/** Why this is no column map, as a sentence; null where it is one. */
export function doubtIn(map: unknown): string | null {
  if (!isObject(map)) return `${shown(map)} is no column map. It must be a JSON object.`;
  const { shape, columns, groups = [], words } = map;
  if (!sheetShapes.some((one) => one === shape)) {
    return `the shape ${shown(shape)} is not known. Use one of: ${sheetShapes.join(', ')}.`;
  }
  if (!Array.isArray(columns) || columns.length === 0) {
    return '"columns" lists no column. Write one for each heading of the file, in its order.';
  }
  if (!Array.isArray(groups)) return '"groups" is no list.';
  const doubt = firstOf(groups, doubtInGroup);
  if (doubt !== null) return doubt;
  const walls = groups.map((group: Loose) => String(group.wall));
  return (
    firstOf(columns, (column, i) => doubtInColumn(column, i, walls)) ??
    doubtInRepeats(columns) ??
    doubtInWords(words)
  );
}

const columnIn = ({ heading, fills, unit, wall }: Loose): MappedColumn => {
  const to = fills as MappedColumn['fills'];
  return {
    heading: String(heading).trim(),
    fills: to ? { table: to.table, column: to.column } : null,
    unit: (unit ?? null) as string | null,
    wall: (wall ?? null) as string | null,
  };
};

/** A map in which no doubt was found, whole: what it leaves out is absent. */
export function mapIn(map: unknown): ColumnMap {
  const { shape, columns, groups, words } = map as Loose;
  return {
    shape: shape as SheetShape,
    columns: (columns as Loose[]).map(columnIn),
    groups: ((groups ?? []) as WallGroup[]).map(({ wall, says }) => ({ wall, says: says ?? {} })),
    words: (words ?? {}) as ColumnMap['words'],
  };
}
