import { type Accessor, type JSX, Match, type Resource, Switch } from 'solid-js';
import { messageOf } from './message-of.ts';

/**
 * An answer of the analysis in one of its states: on its way, here, or not to be had. While a newer one is on its
 * way the last one stays. No error boundary: a later answer must be able to take the place of an error.
 */
export function Answer<T>(props: {
  readonly of: Resource<T>;
  /** Said while the first answer is on its way. */
  readonly wait: string;
  /** Said before the cause when there is none to be had. */
  readonly trouble: string;
  readonly children: (value: Accessor<NonNullable<T>>) => JSX.Element;
}) {
  const here = () => props.of.state === 'ready' || props.of.state === 'refreshing';
  return (
    <Switch fallback={<p class="panel-state">{props.wait}</p>}>
      <Match when={props.of.state === 'errored'}>
        <p class="panel-state" role="alert">
          {props.trouble} {messageOf(props.of.error)}
        </p>
      </Match>
      <Match when={here() ? props.of.latest : undefined}>{(value) => props.children(value)}</Match>
    </Switch>
  );
}
