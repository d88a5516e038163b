import type { Engine } from './port.ts';

/** An engine that is still starting: what is asked of it waits until it is there, or is rejected with what stopped it. */
export function whenStarted(starting: Promise<Engine>): Engine {
  starting.catch(() => {});
  return {
    query: async (...asked) => (await starting).query(...asked),
    load: async (...asked) => (await starting).load(...asked),
    close: async () => (await starting).close(),
  };
}
