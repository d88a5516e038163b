import { messageOf } from '../parts/message-of.ts';
/** Why something could not be kept or opened. Every code has its sentence; the page shows the sentence. */
export type TroubleCode =
  | 'no storage'
  | 'no room'
  | 'blocked'
  | 'outdated'
  | 'stale'
  | 'gone'
  | 'content missing'
  | 'held elsewhere'
  | 'refused file'
  | 'other';

export interface Trouble {
  readonly code: TroubleCode;
  /** What happened, what became of the work, and what to do. */
  readonly message: string;
}

/** What a storage call comes to: a value, or trouble in words. Only misuse of our own code throws. */
export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly trouble: Trouble };

export const done = <T>(value: T): Result<T> => ({ ok: true, value });

export const not = (code: TroubleCode, message: string): Result<never> => ({
  ok: false,
  trouble: { code, message },
});

const toFile = 'Save the workspace to a file so that nothing is lost';

const sentences = {
  'no storage': `This browser keeps nothing for this page: a private window, or a setting that refuses stored site data. The work lasts until the page is closed. ${toFile}, or open the page in an ordinary window.`,
  blocked:
    'Another tab holds the workspaces in an older version of this page. Close that tab, then try again.',
  outdated:
    'A newer version of this page is in use in this browser, so this tab can no longer save. Load the page again; what was saved is still there.',
  stale: `The workspace was changed in another tab after this one had opened it, so this tab does not write over it. ${toFile}, or keep it as a copy; or open the workspace again to see the newer state.`,
  gone: `The browser no longer holds this workspace: it was removed in another tab, or the stored site data were cleared. ${toFile}, or keep it as a copy.`,
  'held elsewhere':
    'The workspace is open in another tab. Close it there first, or take it over in this tab.',
} as const;

export const known = (code: keyof typeof sentences): Result<never> => not(code, sentences[code]);

/** An error of the browser's storage as trouble in words. */
export function troubleOf(cause: unknown): Trouble {
  const code = codes[nameOf(cause)];
  if (code) return { code, message: sentences[code] };
  const words = messageOf(cause);
  return {
    code: 'other',
    message: `The browser’s storage answered “${words}”. ${toFile}, then load the page again.`,
  };
}

/** Trouble with the opening of the storage itself: whatever the browser calls it, it keeps nothing. */
export function openingTrouble(cause: unknown): Trouble {
  const code = codes[nameOf(cause)] ?? 'no storage';
  return { code, message: sentences[code] };
}

export const nameOf = (cause: unknown): string =>
  cause instanceof Error || cause instanceof DOMException ? cause.name : '';

/** Names of errors, by the W3C Indexed Database API 3.0; `BlockedError` is ours. */
const codes: Readonly<Record<string, keyof typeof sentences | undefined>> = {
  SecurityError: 'no storage',
  NotAllowedError: 'no storage',
  VersionError: 'outdated',
  BlockedError: 'blocked',
};

/** Room that the browser gives, in bytes; null where it does not say. */
export interface Room {
  readonly allowed: number | null;
  readonly used: number | null;
}

/**
 * The sentence for files that do not fit. `needed` in bytes: what had to be added. What the browser says of its room is
 * repeated only where it explains the refusal: some browsers name a room that the disk does not have.
 */
export function noRoom(name: string, needed: number, { allowed, used }: Room): Result<never> {
  const explains = allowed !== null && allowed - (used ?? 0) < needed;
  const given = explains
    ? `This browser allows ${bytesInWords(allowed)} here${inUse(used)}, and “${name}” needs another ${bytesInWords(needed)}.`
    : `This browser had no room for “${name}”, which needs another ${bytesInWords(needed)}: its share of the disk is used up, or the disk is nearly full.`;
  return not(
    'no room',
    `${given} Nothing of it was written; what was saved before is still there. Remove a workspace that is no longer needed or free disk space, or save this one to a file.`,
  );
}

const inUse = (used: number | null): string =>
  used ? `, of which ${bytesInWords(used)} are in use` : '';

const units = [
  { from: 1e9, word: 'GB', digits: 1 },
  { from: 1e6, word: 'MB', digits: 0 },
  { from: 1e3, word: 'kB', digits: 0 },
] as const;

/** Bytes as people say them, in decimal units: `120 MB`. */
export function bytesInWords(bytes: number): string {
  const unit = units.find(({ from }) => bytes >= from);
  if (!unit) return `${Math.ceil(bytes)} bytes`;
  return `${Number((bytes / unit.from).toFixed(unit.digits))} ${unit.word}`;
}
