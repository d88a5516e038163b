import type { SettingsChanges } from '../../analysis/settings.ts';
import type { KeepStatus } from '../workspace/keeper-types.ts';

const isChanged = (changes: SettingsChanges): boolean => Object.keys(changes).length > 0;

/** What loading the page anew would do to the work at hand, by how the workspace stands. */
export function lossWords({ kind }: KeepStatus, changes: SettingsChanges): string {
  if (kind === 'kept' || kind === 'saving')
    return 'Your workspace is kept and opens again as it is.';
  if (kind === 'none') {
    return isChanged(changes)
      ? 'Settings changed over the invented example will be gone: save them to a file in Settings first.'
      : 'Nothing of yours is open.';
  }
  return 'Changes made here are not kept: save the workspace to a file in Sources first.';
}
