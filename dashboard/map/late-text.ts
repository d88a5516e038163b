import { createEffect, createSignal, onCleanup } from 'solid-js';

/**
 * A text that follows its source when it comes: '' until then, and where it could not be had. Not a resource: reading
 * one suspends the panel around it, which takes the focus off the map.
 */
export function lateText<S>(
  source: () => S | undefined,
  ask: (s: S) => Promise<string>,
): () => string {
  const [text, setText] = createSignal('');
  createEffect(() => {
    const wanted = source();
    let current = true;
    onCleanup(() => {
      current = false;
    });
    const take = (answer: string) => current && setText(answer);
    if (wanted === undefined) take('');
    else
      ask(wanted).then(take, () => {
        take('');
      });
  });
  return text;
}
