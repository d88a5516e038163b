/**
 * Work done one after the other, in the order in which it was asked for. A failure ends its own turn only.
 * For what must not overlap: statements on one connection, runs that rebuild the same tables.
 */
export function createTurns(): <T>(work: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const mine = last.then(work);
    last = mine.catch(() => {});
    return mine;
  };
}
