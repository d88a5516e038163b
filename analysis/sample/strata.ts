import { type Levels, levelsOf } from './levels.ts';
import { type Cell, merged } from './merge-strata.ts';
import { counted, type Population, type StratumField, type StratumRow } from './types.ts';

/** The units of a frame by stratum. */
export interface Strata {
  readonly fields: readonly StratumField[];
  readonly names: readonly string[];
  /** Ordinals of each stratum, in the order in which they were given. */
  readonly members: readonly Int32Array[];
  /** Names that were put together, each list one stratum. */
  readonly merged: readonly (readonly string[])[];
}

/** The one stratum of a population that is not divided. */
const undivided = 'all';

/** How merging is done, for the plan. */
export const mergeRule =
  'A stratum with fewer than 2 units joins the stratum that agrees with it in the field named first, then in the next; among ordered levels the nearest; on equal terms the one with fewer units.';

function cellsOf(
  units: Int32Array,
  levels: readonly Levels[],
): Map<string, { cell: Cell; members: number[] }> {
  const cells = new Map<string, { levels: number[]; members: number[] }>();
  for (const unit of units) {
    const at = levels.map(({ levelOf }) => levelOf(unit));
    const key = at.join();
    if (!cells.has(key)) cells.set(key, { levels: at, members: [] });
    cells.get(key)!.members.push(unit);
  }
  const inOrder = [...cells].sort(([, a], [, b]) => {
    const f = a.levels.findIndex((level, i) => level !== b.levels[i]);
    return a.levels[f]! - b.levels[f]!;
  });
  return new Map(
    inOrder.map(([key, { levels: at, members }]) => {
      const name = at.map((level, f) => levels[f]!.names[level]).join(', ');
      return [key, { cell: { levels: at, name, units: members.length }, members }];
    }),
  );
}

/** Divides the units by the fields, crossed; strata with fewer than two units are merged (see `mergeRule`). */
export function stratify(
  population: Population,
  units: Int32Array,
  fields: readonly StratumField[],
): Strata {
  if (fields.length === 0 || units.length === 0)
    return { fields, names: [undivided], members: [units], merged: [] };
  const levels = fields.map((field) => levelsOf(population, field));
  const found = [...cellsOf(units, levels).values()];
  const cells = found.map(({ cell }) => cell);
  const place = new Map(Array.from(units, (unit, k) => [unit, k]));
  const groups = merged(
    cells,
    levels.map(({ ordered }) => ordered),
  );
  const namesOf = (group: (typeof groups)[number]) => group.cells.map((c) => cells[c]!.name);
  return {
    fields,
    names: groups.map((group) => namesOf(group).join(' + ')),
    members: groups.map((group) =>
      Int32Array.from(group.cells.flatMap((c) => found[c]!.members)).sort(
        (a, b) => place.get(a)! - place.get(b)!,
      ),
    ),
    merged: groups.filter(({ cells: c }) => c.length > 1).map(namesOf),
  };
}

const step = 1e6;

/** Sums are of whole millionths: the order of the file never shows in a figure. */
const summed = (values: Float64Array): number =>
  values.reduce((sum, value) => sum + Math.round(value * step), 0) / step;

export function stratumRow(
  stratum: string,
  members: Int32Array,
  population: Population,
): StratumRow {
  const known = (column: Float64Array) =>
    Float64Array.from(members, (unit) => column[unit]!).filter((value) => !Number.isNaN(value));
  const areas = known(population.areaM2);
  const indices = known(population.index);
  return {
    stratum,
    units: members.length,
    buildings: new Set(Array.from(members, (unit) => population.cluster[unit])).size,
    areaM2: summed(areas),
    areaUnknown: members.length - areas.length,
    meanIndex: indices.length > 0 ? summed(indices) / indices.length : Number.NaN,
  };
}

/** The table of the strata. */
export const strataTable = ({ names, members }: Strata, population: Population): StratumRow[] =>
  names.map((name, h) => stratumRow(name, members[h]!, population));

/** What was merged, in sentences. */
export const saysMerged = ({ merged: lists }: Strata, population: Population): string[] =>
  lists.map(
    (names) =>
      `${names.length} strata are taken as one, for at least one of them has a single ${population.unit}: ${names.join('; ')}.`,
  );

/** Sentences about strata in which a variance cannot be found. */
export const saysSmall = (rows: readonly StratumRow[], unit: Population['unit']): string[] =>
  rows
    .filter(({ units }) => units === 1)
    .map(
      ({ stratum }) =>
        `Stratum ${stratum} has ${counted(1, unit)}: opened or not, it has no spread of its own.`,
    );
