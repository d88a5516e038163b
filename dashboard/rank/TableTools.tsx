import { createSignal, Show } from 'solid-js';
import { Choice } from '../parts/Choice.tsx';
import { Fold } from '../parts/Fold.tsx';
import { counted, digits } from '../parts/format.ts';
import { late } from '../parts/late.tsx';
import { messageOf } from '../parts/message-of.ts';
import { patch, select } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import type { RowForm } from '../state/page-state.ts';
import { ColumnPick } from './columns/ColumnPick.tsx';
import { copiedText, mostCopied } from './columns/copy.ts';
import type { Ranking } from './ranking.ts';
import './table-tools.css';

const AnyColumn = late(
  async () => (await import('./columns/AnyColumn.tsx')).AnyColumn,
  'Opening the filters …',
);

const forms: readonly { readonly value: RowForm; readonly word: string }[] = [
  { value: 'reasons', word: 'with reasons' },
  { value: 'columns', word: 'in columns' },
];

/** How the rows are drawn, filters of any column, the way to a rank, and the rows for another program. */
export function TableTools(props: {
  readonly ranking: Ranking;
  /** Of the table as it is laid out, px. */
  readonly width: number;
}) {
  const { state, apply, narrow } = useDesk();
  return (
    <div class="table-tools">
      <Choice
        legend="Rows"
        words={forms}
        value={state.rows}
        onChoose={(rows) => apply(patch({ rows }))}
      />
      <Show when={state.rows === 'columns'}>
        <ColumnPick width={props.width} />
      </Show>
      <Fold class="pick-list any-column" summary="Filter by any column" late>
        <AnyColumn />
      </Fold>
      <GoToRank ranking={props.ranking} />
      <Show when={!narrow()}>
        <CopyRows ranking={props.ranking} />
      </Show>
    </div>
  );
}

/** Brings the building of a rank into view and under the pencil. */
function GoToRank(props: { readonly ranking: Ranking }) {
  const { session, apply } = useDesk();
  const [said, setSaid] = createSignal('');
  const go = async (event: SubmitEvent & { currentTarget: HTMLFormElement }) => {
    event.preventDefault();
    const field = event.currentTarget.elements.namedItem('rank') as HTMLInputElement;
    const rank = field.valueAsNumber;
    if (Number.isNaN(rank)) return setSaid('');
    const b = await session.analyst.atRank(rank);
    if (b === null) return setSaid(`No building has rank ${digits(rank, 0)}.`);
    const shown = props.ranking.order().includes(b);
    setSaid(shown ? '' : `Rank ${digits(rank, 0)} is not among the buildings shown.`);
    apply(select(b));
  };
  return (
    <form class="go-to-rank" onSubmit={(event) => void go(event)}>
      <label>
        Go to rank{' '}
        <input
          type="number"
          name="rank"
          min="1"
          step="1"
          inputmode="numeric"
          onInput={() => setSaid('')}
        />
      </label>
      <button type="submit" class="plain-button">
        Go
      </button>
      <span class="soft" role="status">
        {said()}
      </span>
    </form>
  );
}

/** Copies the first rows shown as tab-separated text, for a spreadsheet. */
function CopyRows(props: { readonly ranking: Ranking }) {
  const { state, session } = useDesk();
  const [said, setSaid] = createSignal('');
  const copy = async () => {
    const ordinals = props.ranking.order().slice(0, mostCopied);
    try {
      const rows = await session.analyst.rows(ordinals);
      await navigator.clipboard.writeText(copiedText(rows, state));
      setSaid(`Copied ${counted(rows.length, 'row')}, with the caution beside each.`);
    } catch (cause) {
      setSaid(`Not copied: ${messageOf(cause)}`);
    }
  };
  const n = () => Math.min(mostCopied, props.ranking.order().length);
  return (
    <span class="copy-rows">
      <button
        type="button"
        class="plain-button"
        disabled={n() === 0 || session.live() !== null}
        onClick={() => void copy()}
      >
        Copy{' '}
        {n() < props.ranking.order().length ? `the first ${digits(n(), 0)} rows` : 'these rows'}
      </button>
      <span class="soft" role="status">
        {said()}
      </span>
    </span>
  );
}
