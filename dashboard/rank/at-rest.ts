import { type Accessor, createEffect, createSignal, on, onCleanup } from 'solid-js';

/** How long a weight that is tried has to stand before what is slower than the table follows it, ms. */
const untilAtRest = 150;

/** What is tried, once it has stood as it is for a while; null at once where nothing is tried any more. */
export function createRested<T extends object>(tried: Accessor<T | null>): Accessor<T | null> {
  const [rested, setRested] = createSignal(tried());
  createEffect(
    on(tried, (now) => {
      const timer = setTimeout(() => setRested(() => now), now ? untilAtRest : 0);
      onCleanup(() => clearTimeout(timer));
    }),
  );
  return () => tried() && rested();
}
