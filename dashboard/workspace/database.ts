import {
  type DBSchema,
  type IDBPDatabase,
  type IDBPTransaction,
  openDB,
  type StoreNames,
} from 'idb';
import { nameOf, openingTrouble, type Result, type Trouble, troubleOf } from './trouble.ts';
import type { Workspace } from './workspace.ts';

/** Stores: workspaces, contents of files by digest (once each, whoever uses them), and small facts. */
export interface Schema extends DBSchema {
  workspace: {
    key: string;
    value: Workspace & { readonly digests: readonly string[] };
    indexes: { digest: string };
  };
  content: { key: string; value: Blob };
  fact: { key: string; value: string };
}

export type Connection = IDBPDatabase<Schema>;
type UpgradeTransaction = IDBPTransaction<Schema, StoreNames<Schema>[], 'versionchange'>;

/** Step from one version of the schema to the next. */
export type Upgrade = (db: Connection, transaction: UpgradeTransaction) => void;

/**
 * All steps ever, oldest first: their count is the version. A step that has shipped is never edited, since browsers
 * of users stand at every version; a new one is added.
 */
export const upgrades: readonly Upgrade[] = [
  (db) => {
    db.createObjectStore('workspace', { keyPath: 'id' }).createIndex('digest', 'digests', {
      multiEntry: true,
    });
    db.createObjectStore('content');
    db.createObjectStore('fact');
  },
];

export interface Database {
  /** Runs work over an open connection, opening or reopening it first. Storage errors become values. */
  readonly use: <T>(work: (db: Connection) => Promise<Result<T>>) => Promise<Result<T>>;
  readonly close: () => void;
}

/**
 * The browser's database under this name. A tab with newer steps is let through at once: this one closes its
 * connection and answers `outdated` from then on.
 */
export function openDatabase(name: string, steps: readonly Upgrade[]): Database {
  let opening: Promise<Connection> | null = null;
  let outdated = false;

  const open = (): Promise<Connection> =>
    connect(name, steps, {
      yielded: () => {
        outdated = true;
        opening = null;
      },
      lost: () => {
        opening = null;
      },
    });
  const connection = async (): Promise<Connection> => {
    if (outdated) throw new DOMException('', 'VersionError');
    opening ??= open();
    try {
      return await opening;
    } catch (cause) {
      opening = null;
      throw cause;
    }
  };
  return {
    use: async (work) => {
      const db = await settled(connection());
      if ('failure' in db) return { ok: false, trouble: openingTrouble(db.failure) };
      const first = await settled(work(db.value));
      if (!('failure' in first)) return first.value;
      if (nameOf(first.failure) !== 'InvalidStateError') return failed(troubleOf(first.failure));
      // The browser closed the connection under us (cleared data, a newer tab): once more over a fresh one.
      opening = null;
      const fresh = await settled(connection());
      if ('failure' in fresh) return failed(openingTrouble(fresh.failure));
      const second = await settled(work(fresh.value));
      return 'failure' in second ? failed(troubleOf(second.failure)) : second.value;
    },
    close: () => void opening?.then((db) => db.close()).catch(() => {}),
  };
}

const failed = (trouble: Trouble): Result<never> => ({ ok: false, trouble });

interface Losses {
  /** A newer tab asked for the database and has it. */
  readonly yielded: () => void;
  /** The browser ended the connection. */
  readonly lost: () => void;
}

/** Rejects with `BlockedError` where a tab with an older schema does not let go. */
function connect(name: string, steps: readonly Upgrade[], losses: Losses): Promise<Connection> {
  return new Promise((resolve, reject) => {
    if (typeof indexedDB === 'undefined') throw new DOMException('', 'SecurityError');
    let given = false;
    const opened = openDB<Schema>(name, steps.length, {
      upgrade: (db, from, _to, transaction) => {
        for (const step of steps.slice(from)) step(db, transaction);
      },
      blocked: () => {
        given = true;
        reject(new DOMException('', 'BlockedError'));
      },
      blocking: (_current, _next, event) => {
        (event.target as IDBDatabase).close();
        losses.yielded();
      },
      terminated: losses.lost,
    });
    // A connection that arrives after we had given up would itself stand in the way of others.
    opened.then((db) => (given ? db.close() : resolve(db)), reject);
  });
}

type Settled<T> = { readonly value: T } | { readonly failure: unknown };

const settled = <T>(work: Promise<T>): Promise<Settled<T>> =>
  work.then(
    (value) => ({ value }),
    (failure: unknown) => ({ failure }),
  );

type Write<N extends StoreNames<Schema>> = IDBPTransaction<Schema, N[], 'readwrite'>;

/**
 * All of the work or none of it: trouble that the work answers, or an error, undoes what was written.
 * `strict`: the browser says done only when the disk has it.
 */
export async function inOneWrite<N extends StoreNames<Schema>, T>(
  db: Connection,
  stores: N[],
  work: (transaction: Write<N>) => Promise<Result<T>>,
): Promise<Result<T>> {
  const transaction = db.transaction(stores, 'readwrite', { durability: 'strict' });
  const ended = settled(transaction.done);
  const result = await settled(work(transaction));
  if ('failure' in result || !result.value.ok) abort(transaction);
  const end = await ended;
  if ('failure' in result) throw transaction.error ?? result.failure;
  if (result.value.ok && 'failure' in end) throw end.failure;
  return result.value;
}

function abort(transaction: { abort(): void }): void {
  try {
    transaction.abort();
  } catch {
    // It has ended by itself already, with the error that is told.
  }
}
