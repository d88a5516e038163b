import { referenceRows, referenceTables } from '../../analysis/reference.ts';
import { defaultSettings, type SettingsChanges, withSettings } from '../../analysis/settings.ts';

type Constants = Readonly<Record<string, unknown>>;
export type EditionEntry = Readonly<
  Record<'region' | 'code' | 'edition' | 'from_year', string | number>
>;

/** The settings that may be changed, by group, in the order of the file. */
export const settingGroups = [
  ...byGroup(referenceRows('constants').filter(({ setting }) => setting === 'yes')),
].map(([group, rows]) => ({ group, rows }));

function byGroup(rows: ReturnType<typeof referenceRows>) {
  const groups = new Map<string, (typeof rows)[number][]>();
  for (const row of rows) groups.set(row.group!, [...(groups.get(row.group!) ?? []), row]);
  return groups;
}

/** The priors that have weights. */
export const priorTables = referenceTables.filter(
  ({ file, rows }) => file.startsWith('priors/') && 'weight' in rows[0]!,
);

/** These changes with one constant in another value; a shipped value is no change. */
export function withConstant(
  changes: SettingsChanges,
  name: string,
  value: number,
): SettingsChanges {
  const { [name]: _, ...rest } = (changes.constants ?? {}) as Constants;
  const same = defaultSettings.constants[name] === value;
  return pruned({ ...changes, constants: same ? rest : { ...rest, [name]: value } });
}

/** These changes with one weight of a prior in another value; a prior as shipped is no change. */
export function withWeight(
  changes: SettingsChanges,
  id: string,
  row: number,
  weight: number,
): SettingsChanges {
  const shipped = priorTables.find((table) => table.id === id)!.rows;
  const rows = priorRows(changes, id).map((cells, i) =>
    i === row ? { ...cells, weight: `${weight}` } : cells,
  );
  const same = rows.every((cells, i) => cells.weight === shipped[i]!.weight);
  const { [id]: _, ...rest } = changes.priors ?? {};
  return pruned({ ...changes, priors: same ? rest : { ...rest, [id]: rows } });
}

/** The rows of a prior under these changes, in the order of the shipped table. */
export function priorRows(
  changes: SettingsChanges,
  id: string,
): Readonly<Record<string, string>>[] {
  const shipped = priorTables.find((table) => table.id === id)!.rows;
  const own = changes.priors?.[id] as readonly Record<string, unknown>[] | undefined;
  if (!own) return [...shipped];
  const keys = Object.keys(shipped[0]!).filter((name) => name !== 'weight' && name !== 'source');
  return shipped.map((row) => {
    const mine = own.find((candidate) => keys.every((key) => `${candidate[key]}` === row[key]));
    return { ...row, weight: mine ? `${mine.weight}` : '0' };
  });
}

export const withEditions = (
  changes: SettingsChanges,
  editions: readonly EditionEntry[],
): SettingsChanges => pruned({ ...changes, editions });

/** Leaves out parts that say nothing. */
function pruned(changes: SettingsChanges): SettingsChanges {
  const filled = Object.entries(changes).filter(
    ([, part]) => Object.keys(part as object).length > 0,
  );
  return Object.fromEntries(filled);
}

/** Why these changes cannot be taken, in a sentence; null where they can. */
export function troubleOf(changes: SettingsChanges): string | null {
  try {
    withSettings(changes);
    return null;
  } catch (cause) {
    return cause instanceof Error ? cause.message : String(cause);
  }
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
  return changes;
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
