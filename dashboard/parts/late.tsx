import { type Component, createSignal, type JSX, Match, onMount, Switch } from 'solid-js';
import { Dynamic } from 'solid-js/web';
import { messageOf } from './message-of.ts';

/**
 * A part of the page whose code is fetched when it is first shown. Not Solid's own `lazy`: that needs a Suspense around
 * it, which would also take the view away whenever a resource in it waits for an answer. `ahead` has the code fetched
 * while the page has nothing else to do; what goes wrong then goes wrong again, and is told, when the part is shown.
 */
export function late<P extends object = Record<never, never>>(
  load: () => Promise<Component<P>>,
  waiting: JSX.Element,
): Component<P> & { readonly ahead: () => void } {
  const [part, setPart] = createSignal<Component<P>>();
  const [trouble, setTrouble] = createSignal<string>();
  const fetch = async () => {
    try {
      const found = await load();
      setPart(() => found);
    } catch (cause) {
      setTrouble(messageOf(cause));
    }
  };
  const Late: Component<P> = (props) => {
    onMount(() => {
      if (!part()) void fetch();
    });
    return (
      <Switch fallback={<p class="panel-state">{waiting}</p>}>
        <Match when={part()}>{(found) => <Dynamic component={found()} {...props} />}</Match>
        <Match when={trouble()}>
          {(words) => (
            <p class="panel-state" role="alert">
              This part of the page could not be opened. {words()}
            </p>
          )}
        </Match>
      </Switch>
    );
  };
  return Object.assign(Late, { ahead: () => void load().catch(() => {}) });
}
