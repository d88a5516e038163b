import { For, Match, Show, Switch } from 'solid-js';
import { createWidth } from '../charts/create-width.ts';
import { late } from '../parts/late.tsx';
import { clearFilters } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { createMedia } from '../state/store.ts';
import { copySelected } from './columns/copy.ts';
import { HeadingRow } from './HeadingRow.tsx';
import { RowView } from './RowView.tsx';
import type { Ranking } from './ranking.ts';
import { tableColumns } from './reason-columns.ts';
import { createRowWindow } from './row-window.ts';
import { SheetPick } from './SheetPick.tsx';
import { TableFoot } from './TableFoot.tsx';
import { TableTools } from './TableTools.tsx';
import './table.css';
import './heading.css';
import './strip.css';
import './stacked.css';

const PlainTable = late(
  async () => (await import('./columns/PlainTable.tsx')).PlainTable,
  'Laying out the columns …',
);

/**
 * Fixed heights, px: the wide row, the same on a low screen, and the stacked one of narrow screens and of the list beside
 * a building.
 */
const heights = { wide: 68, low: 56, stacked: 140 } as const;
/** As in table.css. */
const lowScreen = '(max-height: 1000px)';
const headingHeight = { wide: 58, stacked: 38 } as const;

/** The ranking, row by row, as the reader has chosen: with reasons, or in columns. */
export function RankTable(props: { readonly ranking: Ranking }) {
  const desk = useDesk();
  const plain = () => desk.state.rows === 'columns' && !desk.state.opened;
  const [width, attach] = createWidth();
  return (
    <div class="table-pane" ref={attach}>
      <Show when={!desk.state.opened}>
        <TableTools ranking={props.ranking} width={width()} />
      </Show>
      <Show when={plain()} fallback={<ReasonTable ranking={props.ranking} />}>
        <PlainTable ranking={props.ranking} width={width()} />
      </Show>
      <TableState ranking={props.ranking} />
      <Show when={!desk.state.opened}>
        <TableFoot ranking={props.ranking} />
        <p class="print-note">
          Only the rows in view are printed here. “Report …” in Rank prints the list; the whole
          ranking is saved from there as a file.
        </p>
      </Show>
    </div>
  );
}

function ReasonTable(props: { readonly ranking: Ranking }) {
  const desk = useDesk();
  const stacked = () => desk.narrow() || desk.state.opened;
  const low = createMedia(lowScreen);
  const rowHeight = () => heights[stacked() ? 'stacked' : low() ? 'low' : 'wide'];
  const head = () => (stacked() ? headingHeight.stacked : headingHeight.wide);
  const rows = createRowWindow(() => props.ranking, rowHeight, head);
  const order = () => props.ranking.order();
  return (
    <>
      <table
        class="ranking"
        classList={{ stacked: stacked() }}
        // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: the ARIA grid pattern, rows chosen by key
        role="grid"
        tabIndex={0}
        aria-label="Ranking of buildings"
        aria-rowcount={order().length + 1}
        aria-colcount={tableColumns.length}
        aria-activedescendant={rows.active()}
        aria-busy={props.ranking.pending()}
        ref={rows.attach}
        onKeyDown={rows.onKey}
        onCopy={(event) => copySelected(event, props.ranking, desk.state)}
      >
        <HeadingRow wettingMax={props.ranking.opened.frame.wettingMax} />
        <tbody class="rows" style={{ height: `${rows.total()}px` }}>
          <For each={rows.items()}>
            {(item) => (
              <RowView
                ranking={props.ranking}
                b={order()[rows.placeOf(item)]}
                place={rows.placeOf(item)}
                top={rows.topOf(item)}
                height={rowHeight()}
              />
            )}
          </For>
        </tbody>
      </table>
      <SheetPick rows={order().length} sheet={rows.sheet()} onPick={rows.setSheet} />
    </>
  );
}

/** What is said in place of rows. */
function TableState(props: { readonly ranking: Ranking }) {
  const desk = useDesk();
  return (
    <Switch>
      <Match when={props.ranking.failed()}>
        {(message) => (
          <p class="panel-state" role="alert">
            The ranking could not be read: {message()}
          </p>
        )}
      </Match>
      <Match when={!props.ranking.pending() && props.ranking.order().length === 0}>
        <p class="panel-state">
          No building matches these filters.{' '}
          <button type="button" class="plain-button" onClick={() => desk.apply(clearFilters)}>
            Clear filters
          </button>
        </p>
      </Match>
    </Switch>
  );
}
