import { createEffect, createSignal, createUniqueId, on, Show } from 'solid-js';
import type { Band } from '../../../analysis/bands.ts';
import type { Facet } from '../../../analysis/sift/facet.ts';
import { digits, figureOf } from '../../parts/format.ts';
import { columnKinds, quantities } from '../../parts/quantity.ts';
import { numberNeeded } from '../../parts/words.ts';
import { setCondition } from '../../state/changes.ts';
import { useDesk } from '../../state/desk.ts';
import { rangeOf } from '../../state/page-state.ts';
import { type End, isWhole, rangeTyped, shownEnds, type Typed } from './range-ends.ts';

const nothingTyped: Typed = {};

/** The ends of a range. What makes no sense stays in its field, and the filter stands as it was until it is mended. */
export function RangeForm(props: {
  readonly column: string;
  readonly facet: Extract<Facet, { kind: 'number' }>;
}) {
  const { state, apply } = useDesk();
  const said = createUniqueId();
  const kind = () => columnKinds[props.column] ?? 'plain';
  const unit = () => quantities[kind()][state.units].unit;
  const range = (): Band => rangeOf(state.filters, props.column) ?? {};
  const [typed, setTyped] = createSignal(nothingTyped);
  const [refused, setRefused] = createSignal<string | null>(null);
  const settled = () => {
    setTyped(nothingTyped);
    setRefused(null);
  };
  createEffect(on([range, () => state.units], settled, { defer: true }));
  const put = (end: End, field: HTMLInputElement) => {
    // A text that is no number cannot be read from the field, and is left in it.
    if (field.validity.badInput) return setRefused(numberNeeded);
    const next = { ...typed(), [end]: field.value };
    const found = rangeTyped(props.column, range(), next, state.units);
    if ('refused' in found) {
      setTyped(next);
      return setRefused(found.refused);
    }
    settled();
    apply(setCondition(props.column, found));
  };
  const field = (end: End, word: string) => (
    <label class="filter-end">
      {word}
      <input
        type="number"
        step="any"
        value={typed()[end] ?? shownEnds(props.column, range(), state.units)[end]}
        aria-invalid={refused() !== null || undefined}
        aria-describedby={refused() === null ? undefined : said}
        onChange={(event) => put(end, event.currentTarget)}
      />
      <span class="unit">{unit()}</span>
    </label>
  );
  const ends = () =>
    props.facet.range?.map((value) => figureOf(value, kind(), state.units).digits).join(' to ');
  return (
    <Show when={ends()} fallback={<p class="soft">No building has a figure here.</p>}>
      {field('from', isWhole(props.column) ? 'from' : 'at or above')}
      {field('upTo', isWhole(props.column) ? 'to' : 'below')}
      <Show when={refused()}>
        {(message) => (
          <p class="filter-refused" id={said} role="alert">
            {message()}
          </p>
        )}
      </Show>
      <p class="soft">
        {isWhole(props.column)
          ? 'Both are included.'
          : 'The first figure is included, the second is not.'}{' '}
        In the portfolio: {[ends(), unit()].filter(Boolean).join(' ')}
        <Show when={props.facet.none > 0}>; {digits(props.facet.none, 0)} without a figure</Show>.
      </p>
    </Show>
  );
}
