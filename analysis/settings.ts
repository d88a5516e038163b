import { type ReferenceRow, referenceRows } from './reference.ts';

/** Values of constants.csv by name; a run may replace those that the file marks as settings. */
export type Settings = Readonly<Record<string, number>>;

export class SettingsError extends Error {}

const rows = referenceRows('constants');
const byName = new Map<string, ReferenceRow>(rows.map((row) => [row.name!, row]));

/** The constants as they ship. */
export const defaultSettings: Settings = Object.fromEntries(
  rows.map((row) => [row.name!, Number(row.value)]),
);

/**
 * The default constants with the given ones in their place.
 * Throws a SettingsError, in words, for a name that is no setting, a value that is no number, or weights all 0.
 */
export function withSettings(changes: Readonly<Record<string, unknown>>): Settings {
  const settings = { ...defaultSettings };
  for (const [name, value] of Object.entries(changes)) settings[name] = checked(name, value);
  const weights = ['weight_load', 'weight_deficiency', 'weight_susceptibility'];
  if (weights.every((name) => settings[name] === 0)) {
    throw new SettingsError(
      'The three weights are all 0, so every wall would be alike: raise one.',
    );
  }
  if (weights.some((name) => settings[name]! < 0 || settings[name]! > 3)) {
    throw new SettingsError('A weight lies between 0 and 3.');
  }
  return settings;
}

function checked(name: string, value: unknown): number {
  const row = byName.get(name);
  if (!row) throw new SettingsError(`There is no setting "${name}".`);
  if (row.setting !== 'yes')
    throw new SettingsError(`"${name}" is a constant of the method, not a setting.`);
  if (typeof value !== 'number' || !Number.isFinite(value)) {
    throw new SettingsError(`The setting "${name}" is "${String(value)}": a number is needed.`);
  }
  return value;
}
