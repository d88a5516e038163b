import { engineStopped } from '../../analysis/engine/stopped.ts';
import type { Analyst, Watching } from '../../analysis/session-types.ts';
import { toWire } from './files.ts';
import { type Watched, watchWorker } from './life.ts';
import type { Failure, Method, Reply, Request, Stop, Underway } from './messages.ts';
import { type Death, worthAnother } from './patience.ts';

interface Pending {
  readonly resolve: (result: never) => void;
  readonly reject: (cause: Error) => void;
  readonly onProgress: Watching['onProgress'];
}

type Listener = (message: string) => void;

/** The analyst as the page sees it, over a worker that is started anew when it dies. */
export type Connected = Analyst & {
  /**
   * The worker died and a new one has started: what was pending was rejected with an error named `EngineStopped`, and the
   * new one has nothing open. The listener opens the inputs again.
   */
  readonly onRestart: (listener: Listener) => void;
  /** The worker died and is not started again: the sentence says what to do. Every question is rejected with it. */
  readonly onTrouble: (listener: Listener) => void;
  /** Tries once more after trouble, when the reader asks for it. */
  readonly restart: () => void;
};

const again = 'The analysis stopped and is starting again. Nothing that you gave is lost.';

/** What ends the trying, and what to do about it. */
const givenUp = (why: string): string =>
  `The analysis stopped and could not be started again (${why.replace(/[.!\s]+$/, '')}). Your files and settings are kept. Close other tabs and programs that use much memory and load the page again; for a very large portfolio use the command line.`;

/** Starts the analyst's worker and speaks to it: one id a question, every question answered or rejected. */
export function connectAnalyst(): Connected {
  const pending = new Map<number, Pending>();
  const onRestart: Listener[] = [];
  const onTrouble: Listener[] = [];
  const tell = (listeners: readonly Listener[], message: string) => {
    for (const listener of listeners) listener(message);
  };
  let deaths: readonly Death[] = [];
  let trouble: string | null = null;
  let last = 0;
  let worker = begin();

  function begin(): Watched {
    let started = false;
    const anew = deaths.length > 0;
    return watchWorker(createWorker, {
      onMessage: (data) => settle(pending, data as Reply | Underway),
      onStarted: () => {
        started = true;
        if (anew) tell(onRestart, again);
      },
      onDeath: (why) => {
        deaths = [...deaths, { at: performance.now(), started }];
        buried(why);
      },
    });
  }
  function buried(why: string): void {
    const tryAgain = worthAnother(deaths);
    trouble = tryAgain ? null : givenUp(why);
    if (tryAgain) worker = begin();
    rejectAll(pending, engineStopped(trouble ?? again));
    if (trouble) tell(onTrouble, trouble);
  }

  const send = (method: Method, args: readonly unknown[], { signal, onProgress }: Watching) =>
    new Promise((resolve, reject) => {
      if (trouble) return reject(engineStopped(trouble));
      last += 1;
      const id = last;
      pending.set(id, { resolve, reject, onProgress });
      worker.post({ id, method, args: toWire(args) } satisfies Request);
      signal?.addEventListener('abort', () => {
        if (pending.has(id)) worker.post({ stop: id } satisfies Stop);
      });
    });
  const ask =
    <M extends Method>(method: M) =>
    (...args: Parameters<Analyst[M]>): ReturnType<Analyst[M]> =>
      send(method, args, {}) as ReturnType<Analyst[M]>;

  return {
    open: (inputs, watching = {}) =>
      send('open', [inputs], watching) as ReturnType<Analyst['open']>,
    preview: ask('preview'),
    remarks: ask('remarks'),
    mends: ask('mends'),
    record: ask('record'),
    remarksText: ask('remarksText'),
    frame: ask('frame'),
    rescore: ask('rescore'),
    settings: ask('settings'),
    chase: ask('chase'),
    wallAreas: ask('wallAreas'),
    rainReport: ask('rainReport'),
    weather: ask('weather'),
    lean: ask('lean'),
    prepareLean: ask('prepareLean'),
    order: ask('order'),
    atRank: ask('atRank'),
    facet: ask('facet'),
    views: ask('views'),
    exposure: ask('exposure'),
    rows: ask('rows'),
    own: ask('own'),
    building: ask('building'),
    ledger: ask('ledger'),
    write: ask('write'),
    strata: ask('strata'),
    draw: ask('draw'),
    readFindings: ask('readFindings'),
    infer: ask('infer'),
    learn: ask('learn'),
    rainSheet: ask('rainSheet'),
    onRestart: (listener) => void onRestart.push(listener),
    onTrouble: (listener) => void onTrouble.push(listener),
    restart: () => {
      if (!trouble) return;
      trouble = null;
      worker = begin();
    },
  };
}

/** The name is also that of the worker's lock. */
const createWorker = (name: string): Worker =>
  new Worker(new URL('./analyst.worker.ts', import.meta.url), { type: 'module', name });

function settle(pending: Map<number, Pending>, reply: Reply | Underway): void {
  const asked = pending.get(reply.id);
  if ('progress' in reply) {
    asked?.onProgress?.(reply.progress);
    return;
  }
  pending.delete(reply.id);
  if ('failure' in reply) asked?.reject(errorOf(reply.failure));
  else asked?.resolve(reply.result as never);
}

function rejectAll(pending: Map<number, Pending>, cause: Error): void {
  const asked = [...pending.values()];
  pending.clear();
  for (const { reject } of asked) reject(cause);
}

/** Gives a failure its name back, so that a refusal is known from trouble. */
function errorOf({ name, message, file }: Failure): Error {
  return Object.assign(new Error(message), { name, ...(file === undefined ? {} : { file }) });
}
