import {
  type Connection,
  inOneWrite,
  openDatabase,
  type Schema,
  type Upgrade,
  upgrades,
} from './database.ts';
import { done, known, nameOf, noRoom, not, type Result } from './trouble.ts';
import {
  contentOf,
  type KeptFile,
  type Listing,
  listingOf,
  newId,
  plain,
  sameContent,
  type Workspace,
} from './workspace.ts';

/** Contents of files by SHA-256. */
type Contents = ReadonlyMap<string, Blob>;

/** A workspace and its files, in the order of `workspace.files`. */
export interface Opened {
  readonly workspace: Workspace;
  readonly files: readonly File[];
}

/** The workspaces that this browser keeps. Saves are done in the order in which they are asked for. */
export interface Store {
  /** Newest first. */
  readonly list: () => Promise<Result<readonly Listing[]>>;
  readonly open: (id: string) => Promise<Result<Opened>>;
  /**
   * Writes the next version, whole or not at all, and answers it as it now stands. `workspace.version` is the version
   * that the change was made on: where another one is stored, the answer is trouble `stale` and nothing is written.
   * Saying the same again writes nothing. `contents` needs to hold only what was not saved before.
   */
  readonly save: (workspace: Workspace, contents: Contents) => Promise<Result<Workspace>>;
  readonly remove: (id: string) => Promise<Result<null>>;
  readonly duplicate: (id: string, name: string) => Promise<Result<Workspace>>;
  /** A small fact of the browser as a whole (which workspace was last open); null where there is none. */
  readonly fact: (name: string) => Promise<string | null>;
  readonly setFact: (name: string, value: string) => Promise<Result<null>>;
  readonly close: () => void;
}

export interface StoreOptions {
  readonly name?: string;
  readonly upgrades?: readonly Upgrade[];
  readonly now?: () => Date;
}

export function openStore(options: StoreOptions = {}): Store {
  const database = openDatabase(options.name ?? 'rainledger', options.upgrades ?? upgrades);
  const now = options.now ?? (() => new Date());
  const inTurn = turns();
  return {
    list: () => database.use(list),
    open: (id) => database.use((db) => open(db, id)),
    save: (workspace, contents) =>
      inTurn(() => database.use((db) => save(db, plain(workspace), contents, now()))),
    remove: (id) => inTurn(() => database.use((db) => remove(db, id))),
    duplicate: (id, name) => inTurn(() => database.use((db) => duplicate(db, id, name, now()))),
    fact: async (name) => {
      const found = await database.use(async (db) => done((await db.get('fact', name)) ?? null));
      return found.ok ? found.value : null;
    },
    setFact: (name, value) =>
      database.use(async (db) => {
        await db.put('fact', value, name);
        return done(null);
      }),
    close: database.close,
  };
}

/** One after the other, in the order asked. */
function turns(): <T>(work: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const mine = last.then(work);
    last = mine.catch(() => {});
    return mine;
  };
}

async function list(db: Connection): Promise<Result<readonly Listing[]>> {
  const listings = (await db.getAll('workspace')).map(listingOf);
  return done(listings.sort((a, b) => (a.savedAt < b.savedAt ? 1 : -1)));
}

async function open(db: Connection, id: string): Promise<Result<Opened>> {
  const transaction = db.transaction(['workspace', 'content'], 'readonly');
  const stored = await transaction.objectStore('workspace').get(id);
  if (!stored) return known('gone');
  const contents = transaction.objectStore('content');
  const blobs = await Promise.all(stored.files.map((file) => contents.get(file.sha256)));
  const lost = stored.files.filter((_, i) => !blobs[i]);
  if (lost.length > 0) return missing(lost);
  const files = stored.files.map((file, i) => fileOf(file, blobs[i]!));
  return done({ workspace: workspaceOf(stored), files });
}

const fileOf = ({ name, type, modified }: KeptFile, content: Blob): File =>
  new File([content], name, { type, lastModified: modified });

function workspaceOf(stored: Schema['workspace']['value']): Workspace {
  const { id, savedAt, version } = stored;
  return { ...contentOf(stored), id, savedAt, version };
}

const missing = (files: readonly KeptFile[]): Result<never> =>
  not(
    'content missing',
    `The content of ${files.map(({ name }) => `“${name}”`).join(', ')} is not at hand. Give the file again.`,
  );

async function save(
  db: Connection,
  wanted: Workspace,
  contents: Contents,
  now: Date,
): Promise<Result<Workspace>> {
  const digests = [...new Set(wanted.files.map((file) => file.sha256))];
  let needed = 0;
  try {
    return await inOneWrite(db, ['workspace', 'content'], async (transaction) => {
      const workspaces = transaction.objectStore('workspace');
      const stored = await workspaces.get(wanted.id);
      if (stored && sameContent(stored, wanted)) return done(workspaceOf(stored));
      if (!stored && wanted.version > 0) return known('gone');
      if (stored && stored.version !== wanted.version) return known('stale');

      const content = transaction.objectStore('content');
      const held = await Promise.all(digests.map((digest) => content.getKey(digest)));
      const added = digests.filter((_, i) => held[i] === undefined);
      const absent = wanted.files.filter(
        ({ sha256 }) => added.includes(sha256) && !contents.has(sha256),
      );
      if (absent.length > 0) return missing(absent);
      needed = added.reduce((sum, digest) => sum + contents.get(digest)!.size, 0);

      const next = { ...wanted, version: wanted.version + 1, savedAt: now.toISOString() };
      await Promise.all([
        ...added.map((digest) => content.put(contents.get(digest)!, digest)),
        workspaces.put({ ...next, digests }),
      ]);
      const dropped = (stored?.digests ?? []).filter((digest) => !digests.includes(digest));
      await dropUnused(transaction, dropped);
      return done(next);
    });
  } catch (cause) {
    if (nameOf(cause) !== 'QuotaExceededError') throw cause;
    return noRoom(wanted.name, Math.max(needed, JSON.stringify(wanted).length), await room());
  }
}

type Transaction = Parameters<
  Parameters<typeof inOneWrite<'workspace' | 'content', unknown>>[2]
>[0];

/** Drops contents that no workspace uses any more. */
async function dropUnused(transaction: Transaction, digests: readonly string[]): Promise<void> {
  const users = transaction.objectStore('workspace').index('digest');
  for (const digest of digests)
    if ((await users.count(digest)) === 0) await transaction.objectStore('content').delete(digest);
}

const remove = (db: Connection, id: string): Promise<Result<null>> =>
  inOneWrite(db, ['workspace', 'content'], async (transaction) => {
    const workspaces = transaction.objectStore('workspace');
    const stored = await workspaces.get(id);
    await workspaces.delete(id);
    await dropUnused(transaction, stored?.digests ?? []);
    return done(null);
  });

const duplicate = (
  db: Connection,
  id: string,
  name: string,
  now: Date,
): Promise<Result<Workspace>> =>
  inOneWrite(db, ['workspace'], async (transaction) => {
    const workspaces = transaction.objectStore('workspace');
    const stored = await workspaces.get(id);
    if (!stored) return known('gone');
    const copy = { ...stored, id: newId(), name, version: 1, savedAt: now.toISOString() };
    await workspaces.put(copy);
    return done(workspaceOf(copy));
  });

/** What the browser gives this page; it need not say. */
async function room(): Promise<{ allowed: number | null; used: number | null }> {
  try {
    const { quota, usage } = await navigator.storage.estimate();
    return { allowed: quota ?? null, used: usage ?? null };
  } catch {
    return { allowed: null, used: null };
  }
}
