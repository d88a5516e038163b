/** What the analyst's worker says of its own life, between its replies. */
export type Sign =
  /** It holds the lock named like itself, or this browser has none. */
  | { readonly life: 'held' | 'no lock' }
  /** It is loading: the deadline of the start begins anew. */
  | { readonly life: 'loading' }
  | { readonly life: 'started' }
  /** It cannot go on, and should be started anew. */
  | { readonly life: 'stopped'; readonly message: string };

const isSign = (data: unknown): data is Sign =>
  typeof data === 'object' && data !== null && 'life' in data;

/** Milliseconds without a sign of life after which a start is given up. */
const START_DEADLINE = 30_000;

/** One worker, from its start to its end. */
export interface Watched {
  readonly post: (message: unknown) => void;
  readonly end: () => void;
}

export interface Watcher {
  readonly onMessage: (data: unknown) => void;
  readonly onStarted: () => void;
  /** Once at most, and not after `end`. `message` says what is known of the cause. */
  readonly onDeath: (message: string) => void;
}

let count = 0;
/** Name for a worker and its lock that no other tab gives. */
const lockName = (): string => {
  count += 1;
  return `rainledger analyst ${Math.random().toString(36).slice(2)} ${count}`;
};

/**
 * Starts a worker and notices its end, however it ends: an error event, its own word, a start that hangs, or, where it
 * closed or was killed without a word, that its lock is granted to us.
 */
export function watchWorker(create: (name: string) => Worker, watcher: Watcher): Watched {
  const name = lockName();
  const worker = create(name);
  let over = false;
  const end = (): void => {
    over = true;
    clearTimeout(timer);
    worker.terminate();
  };
  const die = (message: string): void => {
    if (over) return;
    end();
    watcher.onDeath(message);
  };
  const late = () => die('it did not start within half a minute');
  let timer = setTimeout(late, START_DEADLINE);

  const heed: { readonly [K in Sign['life']]: (message: string) => void } = {
    held: () => void navigator.locks.request(name, () => die('it stopped without a word')),
    'no lock': () => {},
    loading: () => {
      clearTimeout(timer);
      timer = setTimeout(late, START_DEADLINE);
    },
    started: () => {
      clearTimeout(timer);
      watcher.onStarted();
    },
    stopped: die,
  };
  worker.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
    if (over) return;
    if (isSign(data)) heed[data.life]('message' in data ? data.message : '');
    else watcher.onMessage(data);
  });
  worker.addEventListener('error', (event) => die(event.message || 'it could not be loaded'));
  worker.addEventListener('messageerror', () => die('an answer could not be read'));
  return { post: (message) => worker.postMessage(message), end };
}
