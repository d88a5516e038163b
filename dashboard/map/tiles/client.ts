import type { Envelope, MapMessages, MessageName, Reply } from './messages.ts';

interface Waiting {
  readonly resolve: (answer: never) => void;
  readonly reject: (cause: Error) => void;
}

interface AskOptions {
  readonly signal?: AbortSignal;
  readonly transfer?: Transferable[];
}

/** The map's side of its worker. A worker that dies rejects all that is waiting, and says so once. */
export class TileClient {
  readonly #worker: Worker;
  readonly #waiting = new Map<number, Waiting>();
  #nextId = 1;
  #closed: Error | undefined;

  constructor(worker: Worker, onDeath: (cause: Error) => void) {
    this.#worker = worker;
    worker.addEventListener('message', ({ data }: MessageEvent<Reply>) => this.#settle(data));
    worker.addEventListener('error', (event) => {
      const cause = new Error(event.message || 'the worker could not be loaded');
      this.close(cause);
      onDeath(cause);
    });
  }

  /**
   * Asks the worker. An aborted request rejects at once and its answer is dropped.
   * @param transfer buffers of the request that the worker may keep
   */
  ask<Name extends MessageName>(
    name: Name,
    request: MapMessages[Name]['request'],
    { signal, transfer = [] }: AskOptions = {},
  ): Promise<MapMessages[Name]['answer']> {
    if (this.#closed) return Promise.reject(this.#closed);
    const id = this.#nextId++;
    return new Promise((resolve, reject) => {
      this.#waiting.set(id, { resolve, reject });
      signal?.addEventListener('abort', () => this.#drop(id));
      this.#worker.postMessage({ id, name, request } satisfies Envelope<Name>, transfer);
    });
  }

  close(cause: Error = new DOMException('the map was closed', 'AbortError')): void {
    this.#closed = cause;
    for (const { reject } of this.#waiting.values()) reject(cause);
    this.#waiting.clear();
    this.#worker.terminate();
  }

  #drop(id: number): void {
    const cause = new DOMException('no longer wanted', 'AbortError');
    this.#waiting.get(id)?.reject(cause);
    this.#waiting.delete(id);
  }

  #settle(reply: Reply): void {
    const waiting = this.#waiting.get(reply.id);
    this.#waiting.delete(reply.id);
    if ('error' in reply) waiting?.reject(new Error(reply.error));
    else waiting?.resolve(reply.answer as never);
  }
}
