import type { SettingsChanges } from '../../analysis/settings.ts';
import { pruned, withConstant } from './changes.ts';
import { type EditionEntry, troubleOf, withEditions } from './draft.ts';
import { priorRows, priorTables, withWeight } from './priors.ts';

/** One thing that was typed: the field it was typed in, and any settings with it in place. */
interface Piece {
  readonly field: string;
  readonly into: (changes: SettingsChanges) => SettingsChanges;
}

/** The field of a weight of a prior. */
export const weightField = (id: string, row: number): string => `${id} ${row}`;

/** What can be taken of settings as typed, and beside which field to say why the rest cannot. */
export interface Settled {
  readonly taken: SettingsChanges;
  readonly troubles: ReadonlyMap<string, string>;
}

/**
 * Of what is typed, all that can be taken goes into what is taken already; what cannot stays out, and what was taken
 * before stands in its place. Fields that bind each other (thresholds that must fall) are tried until none can follow.
 */
export function settled(before: SettingsChanges, typed: SettingsChanges): Settled {
  if (troubleOf(typed) === null) return { taken: typed, troubles: new Map() };
  let taken = before;
  const fits = ({ into }: Piece): boolean => {
    const next = into(taken);
    if (troubleOf(next) !== null) return false;
    taken = next;
    return true;
  };
  let waiting = piecesOf(before, typed);
  let tried: number;
  do {
    tried = waiting.length;
    waiting = waiting.filter((piece) => !fits(piece));
  } while (waiting.length < tried);
  return {
    taken,
    troubles: new Map(waiting.map(({ field, into }) => [field, troubleOf(into(taken))!])),
  };
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Everything in which what is typed differs from what was taken, field by field. */
const piecesOf = (before: SettingsChanges, typed: SettingsChanges): readonly Piece[] => [
  ...constantPieces(before, typed),
  ...priorTables.flatMap(({ id }) => weightPieces(id, before, typed)),
  ...(same(before.editions, typed.editions)
    ? []
    : [
        {
          field: 'editions',
          into: (changes: SettingsChanges) =>
            withEditions(changes, (typed.editions ?? []) as readonly EditionEntry[]),
        },
      ]),
  ...(same(before.unit_costs, typed.unit_costs)
    ? []
    : [
        {
          field: 'unit_costs',
          into: (changes: SettingsChanges) =>
            pruned({ ...changes, unit_costs: typed.unit_costs ?? null }),
        },
      ]),
];

function constantPieces(before: SettingsChanges, typed: SettingsChanges): readonly Piece[] {
  const [old, now] = [before.constants ?? {}, typed.constants ?? {}];
  return [...new Set([...Object.keys(old), ...Object.keys(now)])]
    .filter((name) => !Object.is(old[name], now[name]))
    .map((field) => ({
      field,
      into: (changes) => withConstant(changes, field, now[field] as number | undefined),
    }));
}

function weightPieces(
  id: string,
  before: SettingsChanges,
  typed: SettingsChanges,
): readonly Piece[] {
  const old = priorRows(before, id);
  return priorRows(typed, id).flatMap(({ weight }, row) =>
    weight === old[row]!.weight
      ? []
      : [
          {
            field: weightField(id, row),
            into: (changes: SettingsChanges) => withWeight(changes, id, row, Number(weight)),
          },
        ],
  );
}
