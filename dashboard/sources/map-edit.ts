import type { ColumnMap, MappedColumn, SheetShape } from '../../analysis/mapping/column-map.ts';

/** Changes to a column map by hand: pure functions from the map before to the map after. */

type Fills = MappedColumn['fills'];

const same = (a: Fills, b: Fills): boolean => a?.table === b?.table && a?.column === b?.column;

/** A column of the contract is filled by one column of the file (and wall): the one that filled it before is kept as it is. */
export function withFill(map: ColumnMap, position: number, fills: Fills): ColumnMap {
  const wall = fills?.table === 'wall' ? (map.columns[position]?.wall ?? null) : null;
  const columns = map.columns.map((column, i): MappedColumn => {
    if (i === position) return { ...column, fills, unit: null, wall };
    const taken = fills !== null && same(column.fills, fills) && column.wall === wall;
    return taken ? { ...column, fills: null, unit: null, wall: null } : column;
  });
  return { ...map, columns };
}

export const withUnit = (map: ColumnMap, position: number, unit: string | null): ColumnMap => ({
  ...map,
  columns: map.columns.map((column, i) => (i === position ? { ...column, unit } : column)),
});

/** Says of which wall a column speaks; a wall that no column names is no group any more. */
export function withWall(map: ColumnMap, position: number, wall: string): ColumnMap {
  const columns = map.columns.map((column, i) => (i === position ? { ...column, wall } : column));
  const names = [...new Set(columns.flatMap((column) => column.wall ?? []))];
  const groups = names.map(
    (name) => map.groups.find((group) => group.wall === name) ?? { wall: name, says: {} },
  );
  return { ...map, columns, groups };
}

export const withShape = (map: ColumnMap, shape: SheetShape): ColumnMap => ({ ...map, shape });

/** The user's own word for a value of a vocabulary column; null: no record. */
export const withWord = (
  map: ColumnMap,
  column: string,
  word: string,
  value: string | null,
): ColumnMap => ({
  ...map,
  words: { ...map.words, [column]: { ...map.words[column], [word]: value } },
});
