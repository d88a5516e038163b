import { shippedConstants } from '../../analysis/constants.ts';
import type { SettingsChanges } from '../../analysis/settings.ts';

type Constants = Readonly<Record<string, unknown>>;

/** These changes with one constant in another value; a shipped value, or none, is no change. */
export function withConstant(
  changes: SettingsChanges,
  name: string,
  value: number | undefined,
): SettingsChanges {
  const { [name]: _, ...rest } = (changes.constants ?? {}) as Constants;
  const same = value === undefined || shippedConstants[name] === value;
  return pruned({ ...changes, constants: same ? rest : { ...rest, [name]: value } });
}

/** Leaves out parts that say nothing. */
export function pruned(changes: SettingsChanges): SettingsChanges {
  const filled = Object.entries(changes).filter(
    ([, part]) => part !== null && Object.keys(part as object).length > 0,
  );
  return Object.fromEntries(filled);
}
