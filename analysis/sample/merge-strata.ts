/** A cell of the crossed fields: its level in each field, and how many units stand in it. */
export interface Cell {
  readonly levels: readonly number[];
  readonly name: string;
  readonly units: number;
}

/** A stratum: cells that were put together, in order. */
export interface Group {
  readonly cells: readonly number[];
  readonly units: number;
}

/** How far two cells lie apart in each field: the difference of levels where they are ordered, else whether they differ. */
const apart = (a: Cell, b: Cell, ordered: readonly boolean[]): number[] =>
  a.levels.map((level, f) => {
    const gap = Math.abs(level - b.levels[f]!);
    return ordered[f] ? gap : Math.min(1, gap);
  });

/** Below 0 where a comes first: lists of numbers, the first that differs decides. */
function compareLists(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((x, i) => x !== b[i]);
  return at < 0 ? 0 : a[at]! - b[at]!;
}

/**
 * The neighbour of a stratum that is too small: the one that agrees with it in the field named first, then in the next …;
 * where levels are ordered, the nearest level; on equal terms the one with fewer units, then the earlier.
 */
function neighbourOf(
  small: number,
  groups: readonly Group[],
  cells: readonly Cell[],
  ordered: readonly boolean[],
): number {
  const terms = groups.map(({ cells: members, units }, g) => {
    const gaps = members.flatMap((m) =>
      groups[small]!.cells.map((s) => apart(cells[s]!, cells[m]!, ordered)),
    );
    return { g, terms: [...gaps.sort(compareLists)[0]!, units, g] };
  });
  return terms.filter(({ g }) => g !== small).sort((a, b) => compareLists(a.terms, b.terms))[0]!.g;
}

/** Puts every group with fewer than `least` units to its neighbour, smallest first, until none is left. */
export function merged(cells: readonly Cell[], ordered: readonly boolean[], least = 2): Group[] {
  let groups: Group[] = cells.map(({ units }, c) => ({ cells: [c], units }));
  for (;;) {
    const fewest = Math.min(...groups.map(({ units }) => units));
    if (fewest >= least || groups.length < 2) return groups;
    const small = groups.findIndex(({ units }) => units === fewest);
    const into = neighbourOf(small, groups, cells, ordered);
    const both = [groups[small]!, groups[into]!];
    const joined = {
      cells: both.flatMap((group) => group.cells).sort((a, b) => a - b),
      units: both[0]!.units + both[1]!.units,
    };
    groups = [...groups.filter((_, g) => g !== small && g !== into), joined].sort(
      (a, b) => a.cells[0]! - b.cells[0]!,
    );
  }
}
