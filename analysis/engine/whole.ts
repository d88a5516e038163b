import type { Engine } from './port.ts';
import { createTurns } from './turns.ts';

/** Tables that are remade from time to time, and read meanwhile. */
export interface WholeTables {
  /** The engine for those who read by one statement: it waits until the tables are whole. */
  readonly tables: Engine;
  /** Remakes tables, or reads them by several statements: nothing else is done meanwhile. */
  readonly undisturbed: <T>(work: (engine: Engine) => Promise<T>) => Promise<T>;
}

export function wholeTables(engine: Engine): WholeTables {
  const inTurn = createTurns();
  return {
    tables: {
      query: (...asked) => inTurn(() => engine.query(...asked)),
      load: (...asked) => inTurn(() => engine.load(...asked)),
      close: () => engine.close(),
    },
    undisturbed: (work) => inTurn(() => work(engine)),
  };
}
