import type { Analyst } from '../../analysis/session-types.ts';
import type { WireInputs } from './files.ts';

/** What crosses from the page to the analyst's worker: the methods of `Analyst`, files as File objects. */
export type Method = keyof Analyst;

export type WireArgs<M extends Method> = M extends 'open' ? [WireInputs] : Parameters<Analyst[M]>;

export interface Request<M extends Method = Method> {
  readonly id: number;
  readonly method: M;
  readonly args: WireArgs<M>;
}

export type Reply =
  | { readonly id: number; readonly result: unknown }
  | { readonly id: number; readonly failure: Failure };

/** An error in transit: classes do not survive a thread, names do. */
export interface Failure {
  readonly name: string;
  readonly message: string;
  /** Of a Refusal: the file it speaks of. */
  readonly file?: string;
}
