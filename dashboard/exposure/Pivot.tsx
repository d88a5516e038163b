import { createMemo, createSignal, For, Show } from 'solid-js';
import { type Dimension, dimensions } from '../../analysis/exposure/types.ts';
import { Choice } from '../parts/Choice.tsx';
import { counted } from '../parts/format.ts';
import { type ExposureProps, type Slot, withDimension } from './form.ts';
import { PivotTable } from './PivotTable.tsx';
import { pivotRows } from './pivot-rows.ts';
import { dimensionWords, shownWords } from './words.ts';

/** Rows shown before the reader asks for all. */
const firstRows = 40;

/** Any two or three dimensions crossed, with the first two tiers and both ends of the priors at the margins. */
export function Pivot(props: ExposureProps) {
  const [all, setAll] = createSignal(false);
  const rows = createMemo(() =>
    pivotRows(props.view.pivot, all() ? Number.POSITIVE_INFINITY : firstRows),
  );
  return (
    <section aria-label="Pivot">
      <h3>
        By{' '}
        {[...props.view.pivot.rows.dimensions, ...props.view.pivot.columns.dimensions]
          .map((d) => dimensionWords[d].toLowerCase())
          .join(' × ')}
      </h3>
      <PivotForm {...props} />
      <PivotTable view={props.view} shown={props.form.shown} rows={rows()} />
      <Show when={rows().length < props.view.pivot.rows.n}>
        <p>
          <button type="button" class="plain-button" onClick={() => setAll(true)}>
            Show all {counted(props.view.pivot.rows.n, 'row')}
          </button>{' '}
          <span class="soft">The totals below the table are of all of them.</span>
        </p>
      </Show>
    </section>
  );
}

function PivotForm(props: ExposureProps) {
  const pick = (slot: Slot) => (value: Dimension | null) =>
    props.onForm(withDimension(props.form, slot, value));
  return (
    <div class="exposure-form">
      <DimensionPick label="Rows" value={props.form.rows} onPick={pick('rows')} />
      <DimensionPick label="then by" value={props.form.thenBy} optional onPick={pick('thenBy')} />
      <DimensionPick label="Columns" value={props.form.columns} optional onPick={pick('columns')} />
      <Choice
        legend="Show"
        words={shownWords}
        value={props.form.shown}
        onChoose={(shown) => props.onForm({ shown })}
      />
    </div>
  );
}

function DimensionPick(props: {
  readonly label: string;
  readonly value: Dimension | null;
  readonly optional?: boolean;
  readonly onPick: (value: Dimension | null) => void;
}) {
  return (
    <label>
      {props.label}
      <select
        value={props.value ?? ''}
        onChange={(event) => props.onPick((event.currentTarget.value || null) as Dimension | null)}
      >
        <Show when={props.optional}>
          <option value="">nothing</option>
        </Show>
        <For each={dimensions}>
          {(dimension) => (
            <option value={dimension} selected={dimension === props.value}>
              {dimensionWords[dimension].toLowerCase()}
            </option>
          )}
        </For>
      </select>
    </label>
  );
}
