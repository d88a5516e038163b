import { done, not, type Result } from './trouble.ts';

/** A file of a workspace: what it is for, how the user knows it, and the digest that finds its content. */
export interface KeptFile {
  /** What the page uses it as, e.g. `buildings`; opaque to the storage. */
  readonly role: string;
  readonly name: string;
  /** Media type as the browser gave it; may be empty. */
  readonly type: string;
  /** Bytes. */
  readonly size: number;
  /** Milliseconds since 1970, as File has it. */
  readonly modified: number;
  /** SHA-256 of the content, 64 hexadecimal digits. */
  readonly sha256: string;
}

/** What the user works on, apart from the contents of its files. Every opaque part is plain JSON. */
export interface Content {
  readonly name: string;
  readonly files: readonly KeptFile[];
  /** How each table is read, by file name; opaque here. */
  readonly maps: Readonly<Record<string, unknown>>;
  readonly settings: unknown;
  /** Corrections to cells, in the order in which they were made. */
  readonly edits: readonly unknown[];
  readonly notes: string;
  /** Fragment of the page's address: view, filters, selection. */
  readonly address: string;
  /** What other views keep, by their own name (a sample drawn, findings logged …). */
  readonly more: Readonly<Record<string, unknown>>;
}

export interface Workspace extends Content {
  readonly id: string;
  /** When it was last saved: ISO 8601, UTC. */
  readonly savedAt: string;
  /** Grows by one with each save; 0 before the first. */
  readonly version: number;
}

/** A change of a workspace. Files are changed with their contents, by `Keeper.keepFiles`. */
export type Change = Partial<Omit<Content, 'files'>>;

/** A workspace as lists show it. */
export interface Listing {
  readonly id: string;
  readonly name: string;
  readonly savedAt: string;
  readonly fileNames: readonly string[];
  /** Bytes of its files. */
  readonly bytes: number;
}

export const emptyContent = (name: string): Content => ({
  name,
  files: [],
  maps: {},
  settings: {},
  edits: [],
  notes: '',
  address: '',
  more: {},
});

/** A workspace that was never saved. */
export const newWorkspace = (content: Content): Workspace => ({
  ...content,
  id: newId(),
  savedAt: '',
  version: 0,
});

/** Random, and not by `randomUUID`: that one exists in secure contexts only. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

export function contentOf(workspace: Content): Content {
  const { name, files, maps, settings, edits, notes, address, more } = workspace;
  return { name, files, maps, settings, edits, notes, address, more };
}

/** True where both say the same, whenever and by whom they were saved. */
export const sameContent = (a: Content, b: Content): boolean =>
  JSON.stringify(contentOf(a)) === JSON.stringify(contentOf(b));

/**
 * A plain copy without proxies, functions or blanks, so that storage and file hold the same.
 * Throws on a number that JSON cannot write: it would silently become null.
 */
export function plain<T>(value: T): T {
  const text = JSON.stringify(value, (key, part) => {
    if (typeof part === 'number' && !Number.isFinite(part))
      throw new Error(`${key || 'a value'} is ${part}: a workspace keeps plain JSON only`);
    return part;
  });
  return text === undefined ? value : JSON.parse(text);
}

export const listingOf = (workspace: Workspace): Listing => ({
  id: workspace.id,
  name: workspace.name,
  savedAt: workspace.savedAt,
  fileNames: workspace.files.map((file) => file.name),
  bytes: workspace.files.reduce((sum, file) => sum + file.size, 0),
});

const isText = (value: unknown): value is string => typeof value === 'string';
const isList = (value: unknown): value is readonly unknown[] => Array.isArray(value);
const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isCount = (value: unknown): value is number =>
  Number.isSafeInteger(value) && (value as number) >= 0;
const isAny = (value: unknown): boolean => value !== undefined;

type Shape<T> = { readonly [K in keyof T]-?: readonly [(value: unknown) => boolean, string] };

const contentShape: Shape<Content> = {
  name: [isText, 'a text'],
  files: [isList, 'a list of files'],
  maps: [isRecord, 'column maps by file name'],
  settings: [isAny, 'settings'],
  edits: [isList, 'a list of edits'],
  notes: [isText, 'a text'],
  address: [isText, 'a text'],
  more: [isRecord, 'parts by name'],
};

const fileShape: Shape<KeptFile> = {
  role: [isText, 'a text'],
  name: [(value) => isText(value) && value !== '', 'a file name'],
  type: [isText, 'a text'],
  size: [isCount, 'a whole number of bytes'],
  modified: [(value) => Number.isFinite(value), 'a time in milliseconds'],
  sha256: [(value) => isText(value) && /^[0-9a-f]{64}$/.test(value), 'a SHA-256 digest'],
};

/** Checks content that comes from outside (a file, another version of the page). `where` names it in sentences. */
export function contentFrom(value: unknown, where: string): Result<Content> {
  const wrong =
    mismatch(value, contentShape, 'its list of parts') ??
    (value as Content).files
      .map((file, i) => mismatch(file, fileShape, `file ${i + 1} of its list`))
      .find((sentence) => sentence !== null);
  if (wrong) return not('refused file', `${where} is not a whole workspace: ${wrong}.`);
  return done(contentOf(value as Content));
}

function mismatch<T>(value: unknown, shape: Shape<T>, what: string): string | null {
  if (!isRecord(value)) return `${what} cannot be read`;
  const entries = Object.entries(shape) as [string, Shape<T>[keyof T]][];
  const wrong = entries.find(([name, [fits]]) => !fits(value[name]));
  return wrong ? `${what} should have ${wrong[1][1]} as “${wrong[0]}”` : null;
}
