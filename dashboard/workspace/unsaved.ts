import type { Change } from './workspace.ts';

/**
 * What was changed but not yet saved when the page goes away. A database write begun then may not come to its end;
 * localStorage is written at once. Files are not in it: they are saved as they are given.
 */
export interface Unsaved {
  /**
   * The versions that the change may be laid upon: the one it was made on and, where a save was under way, the one which
   * that save makes. A stored version beyond them has the change already.
   */
  readonly from: number;
  readonly to: number;
  readonly change: Change;
}

const keyOf = (id: string): string => `rainledger unsaved ${id}`;

/** False where there is no room or no localStorage: the write to the database is then the only one. */
export function noteUnsaved(id: string, unsaved: Unsaved): boolean {
  try {
    localStorage.setItem(keyOf(id), JSON.stringify(unsaved));
    return true;
  } catch {
    return false;
  }
}

/** What was left for this version of the workspace; null where there is nothing. */
export function unsavedOf(id: string, version: number): Change | null {
  try {
    const unsaved: Unsaved | null = JSON.parse(localStorage.getItem(keyOf(id)) ?? 'null');
    return unsaved && unsaved.from <= version && version <= unsaved.to ? unsaved.change : null;
  } catch {
    return null;
  }
}

export function forgetUnsaved(id: string): void {
  try {
    localStorage.removeItem(keyOf(id));
  } catch {
    // Nothing was kept, so nothing is left.
  }
}
