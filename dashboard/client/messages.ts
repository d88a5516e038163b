import type { Analyst, Progress } from '../../analysis/session-types.ts';

/** What crosses from the page to the analyst's worker: the methods of `Analyst`, files as File objects. */
export type Method = keyof Analyst;

export interface Request<M extends Method = Method> {
  readonly id: number;
  readonly method: M;
  /** As `toWire` makes them; what watches the work stays in the page. */
  readonly args: readonly unknown[];
}

/** Asks the worker to stop working on a request; its answer is then a failure. */
export interface Stop {
  readonly stop: number;
}

export type Reply =
  | { readonly id: number; readonly result: unknown }
  | { readonly id: number; readonly failure: Failure };

/** How far the work on a request is. */
export interface Underway {
  readonly id: number;
  readonly progress: Progress;
}

/** An error in transit: classes do not survive a thread, names do. */
export interface Failure {
  readonly name: string;
  readonly message: string;
  /** Of a Refusal: the file it speaks of. */
  readonly file?: string;
}
