import type { Engine } from './port.ts';
import { createTurns } from './turns.ts';

/** Tables that are remade from time to time, and read meanwhile. */
export interface WholeTables {
  /** The engine for those who read by one statement: it waits until the tables are whole. */
  readonly tables: Engine;
  /**
   * Remakes tables, or reads them by several statements: nothing else is done meanwhile, but by those who read `shown`
   * tables, and those are to be remade `apart` from them.
   */
  readonly undisturbed: <T>(
    work: (engine: Engine, apart: <U>(remake: () => Promise<U>) => Promise<U>) => Promise<T>,
  ) => Promise<T>;
  /** Reads the tables that stand for most of a remaking: it waits only while these are remade themselves. */
  readonly shown: <T>(work: (engine: Engine) => Promise<T>) => Promise<T>;
}

export function wholeTables(engine: Engine): WholeTables {
  const inTurn = createTurns();
  const apart = createTurns();
  return {
    tables: {
      query: (...asked) => inTurn(() => engine.query(...asked)),
      load: (...asked) => inTurn(() => engine.load(...asked)),
      close: () => engine.close(),
    },
    undisturbed: (work) => inTurn(() => work(engine, apart)),
    shown: (work) => apart(() => work(engine)),
  };
}
