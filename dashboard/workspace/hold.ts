import { newId } from './workspace.ts';

/** A workspace held for writing by this tab. */
export interface Hold {
  readonly release: () => void;
}

/**
 * Told when another tab takes the workspace. Asked to let go: save what waits, then stop; the hold ends when it
 * settles. Taken by force, from a tab that did not hear: the other has it already, so nothing may be saved any more.
 */
export type OnTaken = (byForce: boolean) => Promise<void> | void;

/** Milliseconds to wait for a page that is just going away, such as this one before a reload. */
const LEAVING = 700;
/** Milliseconds that another tab has to save and let go before the workspace is taken without it. */
const LETTING_GO = 3_000;

/** Sender of a request to let go: whoever hears its own request stays. */
const thisTab = newId();

const lockOf = (id: string): string => `rainledger workspace ${id}`;

/**
 * Holds a workspace by a Web Lock, which ends with the tab however that ends. Null where another tab holds it.
 * A browser without locks (an insecure origin) gives every tab its hold: the store still refuses stale saves.
 */
export async function holdWorkspace(id: string, onTaken: OnTaken): Promise<Hold | null> {
  return acquire(id, { signal: AbortSignal.timeout(LEAVING) }, onTaken);
}

/** Holds a workspace that another tab may hold: that one is asked to let go, and after a while no longer asked. */
export async function takeWorkspace(id: string, onTaken: OnTaken): Promise<Hold> {
  const queued = acquire(id, { signal: AbortSignal.timeout(LETTING_GO) }, onTaken);
  const channel = new BroadcastChannel(lockOf(id));
  channel.postMessage(thisTab);
  const given = await queued;
  channel.close();
  return given ?? (await acquire(id, { steal: true }, onTaken))!;
}

async function acquire(id: string, options: LockOptions, onTaken: OnTaken): Promise<Hold | null> {
  const locks = navigator.locks as LockManager | undefined;
  const release = locks ? await granted(locks, lockOf(id), options, onTaken) : () => {};
  return release && listening(id, release, onTaken);
}

/** Resolves to the release of a granted lock, or to null when the patience of the options ran out. */
function granted(
  locks: LockManager,
  name: string,
  options: LockOptions,
  onTaken: OnTaken,
): Promise<(() => void) | null> {
  return new Promise((resolve) => {
    let held = false;
    const keep = () =>
      new Promise<void>((release) => {
        held = true;
        resolve(release);
      });
    // Rejected before it was granted: patience ran out. After: another tab took it by force.
    locks.request(name, options, keep).catch(() => (held ? void onTaken(true) : resolve(null)));
  });
}

function listening(id: string, release: () => void, onTaken: OnTaken): Hold {
  const channel = new BroadcastChannel(lockOf(id));
  const end = () => {
    channel.close();
    release();
  };
  channel.onmessage = ({ data }) => {
    if (data === thisTab) return;
    channel.onmessage = null;
    void Promise.resolve(onTaken(false)).finally(end);
  };
  return { release: end };
}
