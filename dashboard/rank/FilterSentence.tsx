import { For, Show } from 'solid-js';
import { Choice } from '../parts/Choice.tsx';
import { label } from '../parts/words.ts';
import { clearFilters, patch } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { Exports } from './Exports.tsx';
import {
  countWords,
  leaningWords,
  orderWords,
  type Phrase,
  phraseGroups,
} from './filter-sentence.ts';
import type { Ranking } from './ranking.ts';
import { tableColumns } from './reason-columns.ts';

const halves = [
  { value: 'list', word: 'list' },
  { value: 'map', word: 'map' },
] as const;

/** Always readable: how many buildings are shown, why these, in what order. Each filter can be struck from it. */
export function FilterSentence(props: { readonly ranking: Ranking }) {
  const { state, apply, beside, session } = useDesk();
  const groups = () => phraseGroups(state.filters, state.units);
  const order = () =>
    orderWords(
      state,
      tableColumns.find((c) => c.sort === state.sort?.column)?.label ??
        label(state.sort?.column ?? ''),
    );
  return (
    <div class="sentence-line">
      <p class="sentence" aria-busy={props.ranking.pending()}>
        <b role="status">
          {countWords(props.ranking.order().length, props.ranking.opened.frame.n)}
        </b>
        <For each={groups()}>
          {(group) => (
            <>
              {' '}
              {group.lead} <Phrases phrases={group.phrases} />,
            </>
          )}
        </For>
        <Show when={groups().length === 0}>,</Show> {order().words}
        <Show when={order().back} keyed>
          {(back) => <Strike words="back to the ranking" onStrike={() => apply(back)} />}
        </Show>
        .{' '}
        <Show when={session.live()}>
          <span class="soft">
            Weights are being tried: index, tier and order follow, low and high when they are
            settled.{' '}
          </span>
        </Show>
        <Show when={groups().length === 0 && !session.live()}>
          <span class="soft">{leaningWords(props.ranking.opened.frame.counts)}</span>
        </Show>
        <Show when={groups().length > 0}>
          <button type="button" class="plain-button" onClick={() => apply(clearFilters)}>
            Clear filters
          </button>
        </Show>
        <Steps />
      </p>
      <Show when={!beside() && !state.opened}>
        <Choice
          legend="Show"
          words={halves}
          value={state.half}
          onChoose={(half) => apply(patch({ half }))}
        />
      </Show>
      <Exports />
    </div>
  );
}

/** Undo and redo of filters, order and sort; shown once there is something to take back. */
function Steps() {
  const { undo, redo } = useDesk();
  return (
    <Show when={undo() || redo()}>
      <span class="undo-steps">
        <button
          type="button"
          class="plain-button"
          disabled={!undo()}
          title="Undo the last change of filters or order (Ctrl+Z)"
          onClick={() => undo()?.()}
        >
          Undo
        </button>
        <button
          type="button"
          class="plain-button"
          disabled={!redo()}
          title="Redo (Ctrl+Shift+Z)"
          onClick={() => redo()?.()}
        >
          Redo
        </button>
      </span>
    </Show>
  );
}

function Phrases(props: { readonly phrases: readonly Phrase[] }) {
  const { apply } = useDesk();
  return (
    <For each={props.phrases}>
      {(phrase, i) => (
        <>
          {i() === 0 ? '' : i() === props.phrases.length - 1 ? ' or ' : ', '}
          <span class="phrase">
            {phrase.words}
            <Strike words={`remove ${phrase.words}`} onStrike={() => apply(phrase.remove)} />
          </span>
        </>
      )}
    </For>
  );
}

function Strike(props: { readonly words: string; readonly onStrike: () => void }) {
  return (
    <button
      type="button"
      class="strike"
      aria-label={props.words}
      title={props.words}
      onClick={() => props.onStrike()}
    >
      <svg viewBox="0 0 10 10" aria-hidden="true">
        <path d="M2 2l6 6M8 2l-6 6" />
      </svg>
    </button>
  );
}
