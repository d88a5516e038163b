import type { SettingsChanges } from '../../analysis/settings.ts';
import { counted } from '../parts/format.ts';

/** What of the settings that score differs from what ships: *2 constants, 1 prior*; '' where nothing does. */
export function changedWords({ constants, priors, editions }: SettingsChanges): string {
  const parts = [
    [Object.keys(constants ?? {}).length, 'constant'],
    [Object.keys(priors ?? {}).length, 'prior'],
    [Array.isArray(editions) ? editions.length : 0, 'edition in force', 'editions in force'],
  ] as const;
  return parts
    .filter(([n]) => n > 0)
    .map(([n, one, many]) => counted(n, one, many))
    .join(', ');
}
