import { type ReferenceRow, referenceRows } from '../../analysis/reference.ts';
import { type SettingsChanges, withSettings } from '../../analysis/settings.ts';
import { messageOf } from '../parts/message-of.ts';
import { numberNeeded } from '../parts/words.ts';
import { pruned } from './changes.ts';

export type EditionEntry = Readonly<
  Record<'region' | 'code' | 'edition' | 'from_year', string | number>
>;

/** Groups of data/constants.csv in the order in which they are most often asked for; others follow. */
const firstGroups = ['Weights', 'Tiers', 'Rain', 'Drainage', 'Sheathing and age', 'Rules'];

/** The settings that may be changed, by group. */
export const settingGroups = byGroup(
  referenceRows('constants').filter(({ setting }) => setting === 'yes'),
);

function byGroup(rows: readonly ReferenceRow[]) {
  const groups = [...new Set([...firstGroups, ...rows.map(({ group }) => group!)])];
  return groups.map((group) => ({ group, rows: rows.filter((row) => row.group === group) }));
}

export const withEditions = (
  changes: SettingsChanges,
  editions: readonly EditionEntry[],
): SettingsChanges => pruned({ ...changes, editions });

/** Why these changes cannot be taken, in a sentence; null where they can. */
export function troubleOf(changes: SettingsChanges): string | null {
  if (hasBlank(changes)) return numberNeeded;
  try {
    withSettings(changes);
    return null;
  } catch (cause) {
    return messageOf(cause);
  }
}

/** A field that was emptied reads as NaN. */
function hasBlank({ constants, priors }: SettingsChanges): boolean {
  const weights = Object.values(priors ?? {}).flatMap((table) =>
    (table as readonly ReferenceRow[]).map(({ weight }) => Number(weight)),
  );
  return [...Object.values(constants ?? {}), ...weights].some(Number.isNaN);
}

/** The settings of a file's text: a settings file, or the sidecar of an export. Throws in words. */
export function changesOfText(text: string): SettingsChanges {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch {
    throw new Error('This is not a settings file: it is not JSON.');
  }
  if (typeof parsed !== 'object' || parsed === null || Array.isArray(parsed)) {
    throw new Error('This is not a settings file: a JSON object is needed.');
  }
  const object = parsed as Record<string, unknown>;
  const changes = ('software' in object ? object.settings : object) as SettingsChanges;
  withSettings(changes);
  return pruned(changes);
}

/** How many places the last change moved, as a sentence. */
export function effectWords({ firstTwenty, tier }: { firstTwenty: number; tier: number }): string {
  const left =
    firstTwenty === 0
      ? 'The first 20 are the same buildings'
      : `Of the first 20, ${firstTwenty} changed`;
  const moved = tier === 1 ? '1 building changed tier' : `${tier} buildings changed tier`;
  return `${left}; ${moved}.`;
}
