import type { Analyst } from '../../analysis/session-types.ts';
import { toWire } from './files.ts';
import type { Failure, Method, Reply, Request, WireArgs } from './messages.ts';

interface Pending {
  readonly resolve: (result: never) => void;
  readonly reject: (cause: Error) => void;
}

/** The analyst as the page sees it. `onTrouble` hears of a worker that stopped: what was pending is rejected. */
export type Connected = Analyst & {
  readonly onTrouble: (listener: (message: string) => void) => void;
};

/** Starts the analyst's worker and speaks to it: one id a question, every question answered or rejected. */
export function connectAnalyst(): Connected {
  const worker = new Worker(new URL('./analyst.worker.ts', import.meta.url), { type: 'module' });
  const pending = new Map<number, Pending>();
  const listeners: ((message: string) => void)[] = [];
  let last = 0;

  worker.addEventListener('message', ({ data }: MessageEvent<Reply>) => {
    const asked = pending.get(data.id);
    pending.delete(data.id);
    if ('failure' in data) asked?.reject(errorOf(data.failure));
    else asked?.resolve(data.result as never);
  });
  worker.addEventListener('error', (event) => {
    const message = event.message || 'The analysis stopped. Load the page again.';
    for (const { reject } of pending.values()) reject(new Error(message));
    pending.clear();
    for (const listener of listeners) listener(message);
  });

  const ask =
    <M extends Method>(method: M) =>
    (...args: WireArgs<M>): ReturnType<Analyst[M]> =>
      new Promise((resolve, reject) => {
        last += 1;
        pending.set(last, { resolve, reject });
        worker.postMessage({ id: last, method, args } satisfies Request<M>);
      }) as ReturnType<Analyst[M]>;

  const open = ask('open');
  return {
    open: async (inputs) => open(toWire(inputs)),
    frame: ask('frame'),
    rescore: ask('rescore'),
    settings: ask('settings'),
    chase: ask('chase'),
    wallAreas: ask('wallAreas'),
    rainReport: ask('rainReport'),
    weather: ask('weather'),
    order: ask('order'),
    rows: ask('rows'),
    building: ask('building'),
    ledger: ask('ledger'),
    write: ask('write'),
    rainSheet: ask('rainSheet'),
    onTrouble: (listener) => void listeners.push(listener),
  };
}

/** Gives a failure its name back, so that a refusal is known from trouble. */
function errorOf({ name, message, file }: Failure): Error {
  return Object.assign(new Error(message), { name, ...(file === undefined ? {} : { file }) });
}
