import { buildingColumns, type ColumnRule, wallColumns } from '../read/schema.ts';
import { wordReader } from '../read/vocabulary.ts';
import { type Evidence, evidenceOf } from './evidence.ts';
import { readableShare, trust, trustInId } from './fit.ts';
import { type GroupReading, groupReadings, onlyNames } from './groups.ts';
import { type NameFit, namedBy, type TableName } from './heading-names.ts';
import { plainHeading } from './heading-words.ts';
import { type Profile, share } from './profile.ts';
import { numberWithUnit } from './quantity-text.ts';
import { type ColumnUnit, unitSpelt, unitsFor, withoutUnits } from './units.ts';

/** One thing that one column of a file may be. */
export interface Candidate {
  readonly profile: Profile;
  readonly table: TableName;
  readonly column: string;
  /** Place of the column in the contract. */
  readonly rank: number;
  /** The wall it speaks of, in sheets with several walls a row. */
  readonly group: GroupReading | null;
  readonly unit: string | null;
  /** The column has a choice of units and the file names none. */
  readonly unitGuessed: boolean;
  readonly confidence: number;
  readonly why: string;
}

export const rulesOf: Readonly<Record<TableName, readonly ColumnRule[]>> = {
  building: buildingColumns,
  wall: wallColumns,
};

const ranks = new Map(
  (['building', 'wall'] as const).flatMap((table, t) =>
    rulesOf[table].map(({ name }, i) => [`${table}.${name}`, 1000 * t + i] as const),
  ),
);

const ruleOf = (table: TableName, column: string): ColumnRule =>
  rulesOf[table].find(({ name }) => name === column)!;

const nameOf = (column: string, unit: ColumnUnit): string | null =>
  unit === unitsFor(column)[0] ? null : unit.unit;

/** The unit that at least half of the values name; null where none does. */
function unitInValues({ values }: Profile, column: string): ColumnUnit | null {
  if (unitsFor(column).length < 2) return null;
  for (const one of unitsFor(column)) {
    if (share(values.slice(0, 60), (text) => numberWithUnit(text, column)?.unit === one) >= 0.5)
      return one;
  }
  return null;
}

/** Shares of 1 in a column of percent: all within 0 and 1, not all whole. */
const areFractions = ({ numbers }: Profile): boolean =>
  numbers.length > 0 &&
  numbers.every((x) => x >= 0 && x <= 1) &&
  numbers.some((x) => !Number.isInteger(x));

interface UnitFound {
  readonly unit: string | null;
  readonly guessed: boolean;
  readonly says: string;
}

function unitOf(profile: Profile, rule: ColumnRule, inHeading: ColumnUnit | null): UnitFound {
  const { name, kind } = rule;
  if (kind === 'percent' && areFractions(profile)) {
    return { unit: 'fraction', guessed: false, says: '; its values are fractions of 1' };
  }
  if (inHeading) {
    return {
      unit: nameOf(name, inHeading),
      guessed: false,
      says: `; its heading gives ${inHeading.label}`,
    };
  }
  const inValues = unitInValues(profile, name);
  if (inValues) {
    return {
      unit: nameOf(name, inValues),
      guessed: false,
      says: `; its values give ${inValues.label}`,
    };
  }
  const choice = unitsFor(name).length > 1 && kind !== 'money' && kind !== 'percent';
  const says = choice ? `; no unit is given, so ${unitsFor(name)[0]!.label} is taken` : '';
  return { unit: null, guessed: choice, says };
}

interface Named {
  readonly fit: NameFit;
  readonly inHeading: ColumnUnit | null;
}

/** What these words name, read with and without the units in them; the better reading of each column. */
function namesIn(words: readonly string[]): readonly Named[] {
  const best = new Map<string, Named>();
  const offer = (fit: NameFit, inHeading: ColumnUnit | null) => {
    const key = `${fit.table}.${fit.column}`;
    if (fit.confidence > (best.get(key)?.fit.confidence ?? 0)) best.set(key, { fit, inHeading });
  };
  for (const fit of namedBy(words)) offer(fit, null);
  for (const column of withUnits) {
    for (const { unit, rest } of withoutUnits(words, column)) {
      for (const fit of namedBy(rest)) if (fit.column === column) offer(fit, unit);
    }
  }
  return [...best.values()];
}

const withUnits: readonly string[] = [
  ...new Set([...buildingColumns, ...wallColumns].map(({ name }) => name)),
].filter((name) => unitsFor(name).length > 0);

/** What is judged of a unit that nobody named. */
const guessedUnit = 0.65;
/** How far values raise the confidence in a doubtful name. */
const support = 0.6;

/** What guesses are made from beside one column. */
interface Context {
  readonly decimalComma: boolean;
}

/** A material that only the name of a column says is told, for `stone` may be another. */
const saidByGroup = (group: GroupReading | null): string =>
  group?.kind === 'material'
    ? `; “${group.group.wall}” is taken for ${group.group.says.material}`
    : '';

function settle(
  profile: Profile,
  { fit, inHeading }: Named,
  group: GroupReading | null,
  evidence: readonly Evidence[],
  { decimalComma }: Context,
): Candidate {
  const { table, column } = fit;
  const rule = ruleOf(table, column);
  const { unit, guessed, says } = unitOf(profile, rule, inHeading);
  const read = readableShare(profile, rule, unit, decimalComma);
  const seen = evidence.find((one) => one.table === table && one.column === column);
  const named = fit.confidence * (group?.sure ?? 1) * (guessed ? guessedUnit : 1);
  const raised = seen ? named + (1 - named) * support * seen.confidence : named;
  const isId = table === 'building' && column === 'building_id';
  const confidence = raised * trust(rule, read) * (isId ? trustInId(profile) : 1);
  const why = `by its name${seen ? `, and ${seen.why}` : ''}${says}${saidByGroup(group)}`;
  const rank = ranks.get(`${table}.${column}`)!;
  return { profile, table, column, rank, group, unit, unitGuessed: guessed, confidence, why };
}

/** The contract's own heading, in either table. */
const exact = (profile: Profile): readonly Candidate[] =>
  (['building', 'wall'] as const).flatMap((table) =>
    rulesOf[table]
      .filter(({ name, derived }) => !derived && name === plainHeading(profile.heading))
      .map(({ name }) => ({
        profile,
        table,
        column: name,
        rank: ranks.get(`${table}.${name}`)!,
        group: null,
        unit: null,
        unitGuessed: false,
        confidence: 1,
        why: 'its heading is the name used here',
      })),
  );

const material = wordReader('material');

/** What a heading that only names a wall says of it: its material where the values do, an area where only a unit stands. */
function silentRest(profile: Profile, group: GroupReading): readonly Named[] {
  const area = unitSpelt(group.rest, 'area_m2');
  if (area)
    return [{ fit: { table: 'wall', column: 'area_m2', confidence: 0.85 }, inHeading: area }];
  if (!onlyNames(group) || group.kind === 'material') return [];
  return share(profile.values, (text) => material(text) !== null) >= 0.5
    ? [{ fit: { table: 'wall', column: 'material', confidence: 0.8 }, inHeading: null }]
    : [];
}

/** Columns that a group named for a material may have: others would say the same of it twice, or speak of other things. */
const ofMaterial = new Set(['area_m2', 'installed', 'drainage', 'gap_mm', 'drainage_eff_pct']);
const leastRest = 0.6;

const inGroup = (profile: Profile, context: Context): Candidate[] =>
  groupReadings(profile.words).flatMap((group) =>
    [...namesIn(group.rest), ...silentRest(profile, group)]
      .filter(({ fit: { table, column, confidence } }) => {
        const ownId = column === 'building_id' || column === 'wall_id';
        const fits = group.kind !== 'material' || ofMaterial.has(column);
        return table === 'wall' && !ownId && fits && confidence >= leastRest;
      })
      .map((named) => settle(profile, named, group, [], context)),
  );

function candidatesOf(
  profile: Profile,
  evidence: readonly Evidence[],
  context: Context,
): readonly Candidate[] {
  const own = exact(profile);
  if (own.length > 0) return own;
  const named = namesIn(profile.words).map((one) => settle(profile, one, null, evidence, context));
  const best = Math.max(0, ...named.map(({ confidence }) => confidence));
  const grouped = inGroup(profile, context).filter(({ confidence }) => confidence > best);
  const seen = evidence
    .filter(
      (one) => !named.some(({ table, column }) => table === one.table && column === one.column),
    )
    .map(({ table, column, confidence, why }): Candidate => {
      const { unit, guessed, says } = unitOf(profile, ruleOf(table, column), null);
      const rank = ranks.get(`${table}.${column}`)!;
      return {
        profile,
        table,
        column,
        rank,
        group: null,
        unit,
        unitGuessed: guessed,
        confidence,
        why: `${why}${says}`,
      };
    });
  return [...named, ...grouped, ...seen];
}

/** Everything that the columns of a sheet may be. */
export function candidatesIn(profiles: readonly Profile[], context: Context): readonly Candidate[] {
  const evidence = evidenceOf(profiles);
  return profiles.flatMap((profile, i) => candidatesOf(profile, evidence[i]!, context));
}
