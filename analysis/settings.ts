import { type Constants, shippedConstants } from './constants.ts';
import { evenGroups, groupOf, groupTotals, priorKeys } from './priors.ts';
import { type ReferenceRow, referenceRows, referenceTables } from './reference.ts';

/** An edition that a region (state or province code) took into force in a year, as the user says. */
interface EditionInForce {
  readonly region: string;
  /** As in data/rules/editions.csv: UBC, IBC, IRC or NBC. */
  readonly code: string;
  readonly edition: number;
  readonly from_year: number;
}

/** A guess of the user's as low, likely and high. */
export type Range = readonly [low: number, likely: number, high: number];

/** The user's own money: empty until filled, and never ours. */
export interface UnitCosts {
  /** ISO 4217 code, or whatever the user writes. */
  readonly currency: string;
  /** Cost of work on a wall, per m². */
  readonly cost_per_m2: Range;
  /** Share of the wall area in a tier that the work would be done on, 0-1. */
  readonly share: Range;
}

/** Everything a run may be told beside its inputs. What is not named is as it ships. */
export interface Settings {
  readonly constants: Constants;
  /** Tables of data/priors/ put in the place of those that ship, by id. */
  readonly priors: Readonly<Record<string, readonly ReferenceRow[]>>;
  readonly editions: readonly EditionInForce[];
  readonly unit_costs: UnitCosts | null;
}

/** The part of a Settings that differs from what ships: the form of a settings file. */
export interface SettingsChanges {
  readonly constants?: Readonly<Record<string, unknown>>;
  readonly priors?: Readonly<Record<string, unknown>>;
  readonly editions?: unknown;
  readonly unit_costs?: unknown;
}

/** A setting that cannot be taken; the message is for the user. */
export class SettingsError extends Error {}

const byName = new Map<string, ReferenceRow>(
  referenceRows('constants').map((row) => [row.name!, row]),
);

export const defaultSettings: Settings = {
  constants: shippedConstants,
  priors: {},
  editions: [],
  unit_costs: null,
};

/**
 * The default settings with the given ones in their place.
 * Throws a SettingsError, in words, for what is no setting or has no sense.
 */
export function withSettings(changes: SettingsChanges): Settings {
  const stray = Object.keys(changes).find((part) => !(part in defaultSettings));
  if (stray) {
    throw new SettingsError(
      `A settings file has constants, priors, editions and unit_costs, and no "${stray}".`,
    );
  }
  const constants = { ...defaultSettings.constants };
  for (const [name, value] of Object.entries(changes.constants ?? {})) {
    constants[name] = constant(name, value);
  }
  checkWeights(constants);
  checkTiers(constants);
  return {
    constants,
    priors: Object.fromEntries(
      Object.entries(changes.priors ?? {}).map(([id, table]) => [id, prior(id, table)]),
    ),
    editions: editions(changes.editions ?? []),
    unit_costs: unitCosts(changes.unit_costs ?? null),
  };
}

/** What of these settings differs from what ships. */
export function changesOf({ constants, priors, editions, unit_costs }: Settings): SettingsChanges {
  const changed = Object.entries(constants).filter(
    ([name, value]) => defaultSettings.constants[name] !== value,
  );
  return {
    ...(changed.length > 0 ? { constants: Object.fromEntries(changed) } : {}),
    ...(Object.keys(priors).length > 0 ? { priors } : {}),
    ...(editions.length > 0 ? { editions } : {}),
    ...(unit_costs ? { unit_costs } : {}),
  };
}

/** What differs between two settings, named as statements read it: constants, tables of priors, that of the editions. */
export function namesChanged(before: Settings, after: Settings): readonly string[] {
  const differ = (a: unknown, b: unknown) => JSON.stringify(a) !== JSON.stringify(b);
  const priors = new Set([...Object.keys(before.priors), ...Object.keys(after.priors)]);
  return [
    ...Object.keys(after.constants).filter(
      (name) => before.constants[name] !== after.constants[name],
    ),
    ...[...priors].filter((id) => differ(before.priors[id], after.priors[id])),
    ...(differ(before.editions, after.editions) ? ['edition_in_force'] : []),
  ];
}

/** The rows of a prior that are drawn from: the user's, each of its groups weighing as much, else those that ship. */
export const priorIn = ({ priors }: Settings, id: string): readonly ReferenceRow[] => {
  const own = priors[id];
  return own ? evenGroups(own) : referenceRows(id);
};

function constant(name: string, value: unknown): number {
  const row = byName.get(name);
  if (!row) throw new SettingsError(`There is no setting "${name}".`);
  if (row.setting !== 'yes') {
    throw new SettingsError(`"${name}" is a constant of the method, not a setting.`);
  }
  if (typeof value !== 'number' || !Number.isFinite(value)) {
    throw new SettingsError(`The setting "${name}" is "${String(value)}": a number is needed.`);
  }
  if (value < 0 && name !== 'period_shift') {
    throw new SettingsError(`The setting "${name}" is ${value}: it cannot be below zero.`);
  }
  return value;
}

function checkWeights(constants: Constants): void {
  const weights = ['weight_load', 'weight_deficiency', 'weight_susceptibility'];
  if (weights.every((name) => constants[name] === 0)) {
    throw new SettingsError(
      'The three weights are all 0, so every wall would be alike: raise one.',
    );
  }
  if (weights.some((name) => constants[name]! > 3)) {
    throw new SettingsError('A weight lies between 0 and 3.');
  }
}

function checkTiers({ tier_first_look, tier_next_look, tier_keep_watch }: Constants): void {
  if (tier_first_look! > tier_next_look! && tier_next_look! > tier_keep_watch!) return;
  throw new SettingsError('The thresholds of the tiers must fall from First look to Keep watch.');
}

/** A replaced prior: the same columns, the same values once each, whole weights of which one is above 0. */
function prior(id: string, table: unknown): ReferenceRow[] {
  const shipped = referenceTables.find((candidate) => candidate.id === id);
  if (!shipped?.file.startsWith('priors/') || !('weight' in shipped.rows[0]!)) {
    throw new SettingsError(`There is no prior "${id}".`);
  }
  if (!Array.isArray(table) || table.length === 0) {
    throw new SettingsError(`The prior "${id}" needs a list of rows.`);
  }
  const rows = table.map((row) => priorRow(id, row as Record<string, unknown>, shipped.rows));
  const totals = groupTotals(rows);
  const empty = shipped.rows.map(groupOf).find((group) => !totals.get(group));
  if (empty !== undefined) {
    const within = empty === '' ? '' : ` for "${empty}"`;
    throw new SettingsError(`The prior "${id}" has no weight above 0${within}.`);
  }
  return rows;
}

function priorRow(
  id: string,
  row: Record<string, unknown>,
  shipped: readonly ReferenceRow[],
): ReferenceRow {
  const keys = priorKeys(shipped[0]!);
  const known = shipped.some((candidate) =>
    keys.every((key) => candidate[key] === `${row?.[key]}`),
  );
  const named = keys.map((key) => `${row?.[key]}`).join(', ');
  if (!known) throw new SettingsError(`The prior "${id}" has no value "${named}".`);
  const weight = Number(row.weight);
  if (!Number.isInteger(weight) || weight < 0 || weight > 1000) {
    throw new SettingsError(
      `The weight of "${named}" in the prior "${id}" is "${row.weight}": a whole number from 0 to 1000 is needed.`,
    );
  }
  const cells = keys.map((key) => [key, `${row[key]}`]);
  return { ...Object.fromEntries(cells), weight: `${weight}`, source: 'the user' };
}

function editions(list: unknown): EditionInForce[] {
  if (!Array.isArray(list)) throw new SettingsError('editions needs a list.');
  return list.map((entry) => {
    const { region, code, edition, from_year } = entry as Record<string, unknown>;
    const known = referenceRows('editions').some(
      (row) => row.code === code && row.edition === `${edition}`,
    );
    if (typeof region !== 'string' || !known || !Number.isInteger(from_year)) {
      throw new SettingsError(
        `An edition in force needs region, code, edition and from_year; "${JSON.stringify(entry)}" is not one that this method knows.`,
      );
    }
    return { region, code: `${code}`, edition: Number(edition), from_year: Number(from_year) };
  });
}

function unitCosts(given: unknown): UnitCosts | null {
  if (given === null) return null;
  const { currency, cost_per_m2, share } = given as Record<string, unknown>;
  if (typeof currency !== 'string' || currency.trim() === '') {
    throw new SettingsError('Unit costs need a currency.');
  }
  return {
    currency: currency.trim(),
    cost_per_m2: range('The cost per m²', cost_per_m2, Number.POSITIVE_INFINITY),
    share: range('The share', share, 1),
  };
}

function range(what: string, given: unknown, most: number): Range {
  const values = Array.isArray(given) ? given : [];
  const numbers = values.every((x) => typeof x === 'number' && Number.isFinite(x));
  if (values.length !== 3 || !numbers) {
    throw new SettingsError(`${what} needs three numbers: low, likely and high.`);
  }
  const [low, likely, high] = values as [number, number, number];
  if (low < 0 || low > likely || likely > high || high > most) {
    const limit = most === 1 ? ' between 0 and 1' : '';
    throw new SettingsError(`${what} must rise from low over likely to high${limit}.`);
  }
  return [low, likely, high];
}
