import { For } from 'solid-js';
import type { Fact } from './facts.ts';

/** Facts as terms, each with what is said of it. */
export function FactList(props: { readonly class: string; readonly facts: readonly Fact[] }) {
  return (
    <dl class={props.class}>
      <For each={props.facts}>
        {(fact) => (
          <div>
            <dt>{fact.label}</dt>
            <dd>{fact.text}</dd>
          </div>
        )}
      </For>
    </dl>
  );
}
