import { messageOf } from '../parts/message-of.ts';
import { digestOf } from './digest.ts';
import { bytesInWords, done, nameOf, not, type Result } from './trouble.ts';
import { type Content, contentFrom, contentOf, plain, type Workspace } from './workspace.ts';
import { type Entry, readDirectory, ZipError, type ZipFault } from './zip/directory.ts';
import { pack } from './zip/pack.ts';
import { unpack } from './zip/unpack.ts';

/**
 * A workspace as one file: a ZIP with `workspace.json` and each content once under `files/`. `workspace.json` holds the
 * parts of the workspace, and where each file's content is.
 */
export const ending = '.rainledger';

const format = 'rainledger workspace';
const formatVersion = 1;
const mediaType = 'application/zip';
const list = 'workspace.json';

/** Bytes. A ZIP without its 64-bit extension ends at 4 GiB. */
const LARGEST_FILE = 0xffffffff;

export interface Limits {
  /** Bytes that all entries together may unpack to. */
  readonly unpacked: number;
  /** Bytes that the list of parts may unpack to. */
  readonly list: number;
}

const limits: Limits = { unpacked: LARGEST_FILE, list: 256e6 };

/** `files` in the order of `workspace.files`. */
export async function writeWorkspaceFile(
  workspace: Workspace,
  files: readonly Blob[],
): Promise<Result<File>> {
  const name = fileNameOf(workspace.name);
  const total = files.reduce((sum, file) => sum + file.size, 0);
  if (total > LARGEST_FILE - 1e6) return tooLargeToWrite(workspace.name, total);
  const paths = pathsOf(workspace);
  const contents = new Map(workspace.files.map((file, i) => [paths.get(file.sha256)!, files[i]!]));
  const parts = {
    format,
    formatVersion,
    savedAt: workspace.savedAt,
    ...plain(contentOf(workspace)),
    contents: Object.fromEntries(paths),
  };
  const entries = [
    { path: list, content: new Blob([JSON.stringify(parts, null, 1)]) },
    ...Array.from(contents, ([path, content]) => ({ path, content })),
  ];
  try {
    const zip = await pack(entries, timeOf(workspace.savedAt), mediaType);
    return done(new File([zip], name, { type: mediaType }));
  } catch (cause) {
    return not('other', `“${workspace.name}” could not be written to a file: ${messageOf(cause)}.`);
  }
}

/** Name that every file system takes. */
const fileNameOf = (name: string): string =>
  `${
    name
      // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is taken out.
      .replace(/[\u0000-\u001f\u007f"*/:<>?\\|]+/g, ' ')
      .trim()
      .slice(0, 80) || 'workspace'
  }${ending}`;

/** Path of each content by digest: numbered, and named after the file so that people find it in the ZIP. */
function pathsOf({ files }: Content): ReadonlyMap<string, string> {
  const paths = new Map<string, string>();
  for (const { sha256, name } of files) {
    const readable = name.replace(/[^\p{L}\p{N}._-]+/gu, '_').slice(-60);
    if (!paths.has(sha256)) paths.set(sha256, `files/${paths.size + 1}-${readable}`);
  }
  return paths;
}

/** ZIP times begin in 1980. */
const timeOf = (savedAt: string): Date => new Date(savedAt || '1980-01-02T00:00:00Z');

const tooLargeToWrite = (name: string, total: number): Result<never> =>
  not(
    'other',
    `“${name}” holds ${bytesInWords(total)} of files; one workspace file can hold up to ${bytesInWords(LARGEST_FILE)}. Split the portfolio, or keep the largest grids outside.`,
  );

export interface ReadBack {
  readonly content: Content;
  /** In the order of `content.files`. */
  readonly files: readonly File[];
}

/** Opens a workspace file. Whatever is wrong with it comes back as one sentence, and nothing is changed. */
export async function readWorkspaceFile(
  file: File,
  within: Partial<Limits> = {},
): Promise<Result<ReadBack>> {
  try {
    return done(await read(file, { ...limits, ...within }));
  } catch (cause) {
    if (cause instanceof RefusedFile) return not('refused file', cause.message);
    if (cause instanceof ZipError)
      return not('refused file', `${file.name} ${faults[cause.fault]}`);
    return not('refused file', unreadable(file.name, cause));
  }
}

/** A browser says NotReadableError to a file that is gone, and to contents that it has no room for. */
const unreadable = (name: string, cause: unknown): string =>
  nameOf(cause) === 'NotReadableError' || nameOf(cause) === 'QuotaExceededError'
    ? `${name} could not be opened: it was moved, or this browser has no room to unpack it. Close other tabs, load the page again and give it once more.`
    : `${name} could not be opened: ${messageOf(cause)}. Give it again.`;

/** Carries a sentence out of the steps of reading. */
class RefusedFile extends Error {}

const another = 'Take the copy it was made from, or save the workspace again.';

const faults: Readonly<Record<ZipFault, string>> = {
  'not a zip': `is not a workspace file. A workspace saved here ends in ${ending}.`,
  'cut short': `is cut short: its end is missing, as after a download or copy that broke off. ${another}`,
  'too large for this zip': 'is packed in a way that this page does not read. Save it here again.',
  encrypted: 'is encrypted. Unlock it with the program that locked it, then open it here.',
  damaged: `is damaged: what is in it differs from what its directory says. ${another}`,
  overlapping: 'is built so that its parts overlap, as no honest file is. It was not unpacked.',
};

async function read(file: File, within: Limits): Promise<ReadBack> {
  const entries = checkedEntries(file.name, await readDirectory(file), within);
  const parts = partsOf(file.name, await (await unpack(file, entries.get(list)!)).text());
  const content = contentFrom(parts, file.name);
  if (!content.ok) throw new RefusedFile(content.trouble.message);
  const contents = await unpackContents(file, entries, content.value, parts.contents);
  const files = content.value.files.map(
    ({ sha256, name, type, modified }) =>
      new File([contents.get(sha256)!], name, { type, lastModified: modified }),
  );
  return { content: content.value, files };
}

/** Refuses before anything is unpacked: other ZIPs, paths that lead elsewhere, sizes beyond the limits. */
function checkedEntries(
  name: string,
  entries: readonly Entry[],
  within: Limits,
): ReadonlyMap<string, Entry> {
  const byName = new Map(entries.map((entry) => [entry.name, entry]));
  if (!byName.has(list))
    throw new RefusedFile(
      `${name} is a ZIP, but not a workspace: it has no ${list}. To read tables out of it, unpack it and give its files.`,
    );
  if (byName.size < entries.length)
    throw new RefusedFile(`${name} holds two parts of one name. It was not unpacked.`);
  const stray = entries.find((entry) => !isOurPath(entry.name));
  if (stray)
    throw new RefusedFile(
      `${name} holds “${stray.name.slice(0, 80)}”, which is no place for a part of a workspace. It was not unpacked.`,
    );
  const total = entries.reduce((sum, entry) => sum + entry.size, 0);
  if (total > within.unpacked || byName.get(list)!.size > within.list)
    throw new RefusedFile(
      `${name} would unpack to ${bytesInWords(total)}; this page opens up to ${bytesInWords(within.unpacked)}, of which ${bytesInWords(within.list)} for ${list}. It was not unpacked.`,
    );
  return byName;
}

/** `workspace.json`, `files/`, and names directly in `files/` that are neither hidden nor lead upwards. */
const isOurPath = (path: string): boolean =>
  path === list || path === 'files/' || /^files\/[^./\\\p{Cc}][^/\\\p{Cc}]*$/u.test(path);

type Parts = Readonly<Record<string, unknown>> & { readonly contents: unknown };

function partsOf(name: string, text: string): Parts {
  const parts = parsed(text);
  const version = Number(parts?.formatVersion);
  if (parts?.format !== format || !(version >= 1))
    throw new RefusedFile(`${name} is a ZIP, but its ${list} is not of a workspace saved here.`);
  if (version > formatVersion)
    throw new RefusedFile(
      `${name} was saved by a newer version of this page (format ${version}; this one reads up to ${formatVersion}). Load the newest page and open it there.`,
    );
  return parts;
}

function parsed(text: string): Parts | null {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** Each content once, checked against its digest. */
async function unpackContents(
  zip: File,
  entries: ReadonlyMap<string, Entry>,
  content: Content,
  paths: unknown,
): Promise<ReadonlyMap<string, Blob>> {
  const pathOf = new Map(Object.entries(Object(paths)) as [string, unknown][]);
  const contents = new Map<string, Blob>();
  for (const { name, size, sha256 } of content.files) {
    if (contents.has(sha256)) continue;
    const entry = entries.get(String(pathOf.get(sha256)));
    if (!entry) throw new RefusedFile(`${zip.name} lacks the content of “${name}”. ${another}`);
    const blob = entry.size === size ? await unpack(zip, entry) : null;
    if (!blob || (await digestOf(blob)) !== sha256)
      throw new RefusedFile(
        `${zip.name}: the content of “${name}” is not what was saved (its digest differs). ${another}`,
      );
    contents.set(sha256, blob);
  }
  return contents;
}
