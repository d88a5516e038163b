import { createResource, createSignal, For, Match, Show, Switch } from 'solid-js';
import type { Facet } from '../../../analysis/sift/facet.ts';
import { Fold } from '../../parts/Fold.tsx';
import { digits } from '../../parts/format.ts';
import { label } from '../../parts/words.ts';
import { toggleAmong } from '../../state/changes.ts';
import { useDesk } from '../../state/desk.ts';
import { amongOf } from '../../state/page-state.ts';
import { valueWords } from '../filter-sentence.ts';
import { RangeForm } from './RangeForm.tsx';

/** Filter of one column behind a small mark in its heading: its words to tick, or the ends of a range. */
export function ColumnFilter(props: { readonly column: string }) {
  const { state } = useDesk();
  const active = () => state.filters.on[props.column] !== undefined;
  return (
    <Fold
      class="pick-list column-filter"
      label={`Filter by ${label(props.column)}`}
      active={active()}
      late
      summary={
        <svg viewBox="0 0 12 12" aria-hidden="true">
          <path d="M1 2h10M3 6h6M5 10h2" />
        </svg>
      }
    >
      <FilterForm column={props.column} over />
    </Fold>
  );
}

/** What a column may be filtered by, from the portfolio itself. */
export function FilterForm(props: {
  readonly column: string;
  /** It lies over the page by itself. */
  readonly over?: boolean;
}) {
  const { session } = useDesk();
  const [facet] = createResource(
    () => ({ column: props.column, version: session.opened()?.version }),
    ({ column }) => session.analyst.facet(column),
  );
  const words = () => of(facet.latest, 'category');
  const numbers = () => of(facet.latest, 'number');
  return (
    <div class="filter-form" classList={{ 'fold-sheet': props.over }}>
      <Switch fallback={<p class="soft">Reading the column …</p>}>
        <Match when={facet.error}>
          <p role="alert">The column could not be read: {String(facet.error?.message)}</p>
        </Match>
        <Match when={words()}>{(found) => <Words column={props.column} facet={found()} />}</Match>
        <Match when={numbers()}>
          {(found) => <RangeForm column={props.column} facet={found()} />}
        </Match>
      </Switch>
    </div>
  );
}

function of<K extends Facet['kind']>(
  facet: Facet | undefined,
  kind: K,
): Extract<Facet, { kind: K }> | undefined {
  return facet?.kind === kind ? (facet as Extract<Facet, { kind: K }>) : undefined;
}

/** More words than these are searched first. */
const manyWords = 12;
const mostListed = 200;

function Words(props: {
  readonly column: string;
  readonly facet: Extract<Facet, { kind: 'category' }>;
}) {
  const { state, apply } = useDesk();
  const [part, setPart] = createSignal('');
  const chosen = () => amongOf(state.filters, props.column);
  const wordsOf = (value: string | null) => valueWords(props.column, value);
  const found = () =>
    props.facet.values.filter(({ value }) =>
      wordsOf(value).toLowerCase().includes(part().trim().toLowerCase()),
    );
  return (
    <>
      <Show when={props.facet.values.length > manyWords}>
        <input
          type="search"
          class="filter-part"
          aria-label={`Find among ${label(props.column)}`}
          placeholder="Find among these"
          value={part()}
          onInput={(event) => setPart(event.currentTarget.value)}
        />
      </Show>
      <ul>
        <For each={found().slice(0, mostListed)} fallback={<li class="soft">None.</li>}>
          {({ value, n }) => (
            <li>
              <label>
                <input
                  type="checkbox"
                  checked={chosen().includes(value)}
                  onChange={() => apply(toggleAmong(props.column, value))}
                />
                <span>{wordsOf(value)}</span>
                <span class="count">{digits(n, 0)}</span>
              </label>
            </li>
          )}
        </For>
      </ul>
      <Show when={found().length > mostListed}>
        <p class="soft">{digits(found().length - mostListed, 0)} more: type a part of the word.</p>
      </Show>
    </>
  );
}
