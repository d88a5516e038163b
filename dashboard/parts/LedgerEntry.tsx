import { For, Show } from 'solid-js';
import type { LedgerNode } from '../../analysis/session-types.ts';
import { ledgerValue } from './format.ts';
import type { Units } from './quantity.ts';
import { sentenceIn } from './sentence.ts';

interface EntryProps {
  readonly node: LedgerNode;
  readonly units: Units;
  readonly depth: number;
}

/** Levels that stand open when the note unfolds; deeper ones open one by one. */
const openLevels = 2;

/** One line of a derivation and, folded under it, what it was made of. */
export function LedgerEntry(props: EntryProps) {
  const inputs = () => props.node.inputs ?? [];
  return (
    <li class="ledger-entry">
      <Show when={inputs().length > 0} fallback={<EntryText {...props} />}>
        <details open={props.depth < openLevels}>
          <summary>
            <EntryText {...props} />
          </summary>
          <ul>
            <For each={inputs()}>
              {(input) => <LedgerEntry node={input} units={props.units} depth={props.depth + 1} />}
            </For>
          </ul>
        </details>
      </Show>
    </li>
  );
}

function EntryText(props: EntryProps) {
  return (
    <div class="entry-text">
      <div class="entry-line">
        <span class="entry-label">{props.node.label}</span>
        <span class="entry-value" classList={{ absent: props.node.value === null }}>
          {ledgerValue(props.node.value, props.node.unit, props.units)}
        </span>
      </div>
      <Show when={props.node.formula}>
        <p class="entry-formula">= {props.node.formula}</p>
      </Show>
      <Show when={props.node.note}>
        {(note) => <p class="entry-note">{sentenceIn(note(), props.units)}</p>}
      </Show>
      <Show when={props.node.source}>
        <p class="entry-source">{props.node.source}</p>
      </Show>
    </div>
  );
}
