import { createMemo, For, Show } from 'solid-js';
import { digits, noRecord, show } from '../parts/format.ts';
import { reasonIn } from '../parts/reason.ts';
import { TierMark } from '../parts/TierMark.tsx';
import { tierOf } from '../parts/tier-of.ts';
import { Strip } from '../rank/Strip.tsx';
import { useDesk } from '../state/desk.ts';
import type { RankRow } from '../state/rows.ts';
import { IndexCell } from './IndexCell.tsx';
import type { ReportData } from './report-data.ts';
import { StripHeading } from './StripHeading.tsx';
import { needClause } from './words.ts';

/** The first buildings of those shown, each with its reason. */
export function RankedList(props: { readonly data: ReportData }) {
  const all = () => props.data.rows.length === props.data.tallies.n;
  const longest = createMemo(() => wettest(props.data.rows));
  return (
    <section class="ranked-list">
      <h2>
        {all()
          ? 'All buildings shown, in order'
          : `The first ${digits(props.data.rows.length, 0)} of ${digits(props.data.tallies.n, 0)}, in order`}
      </h2>
      <table class="plain ranked-table">
        <thead>
          <tr>
            <th scope="col">Rank, tier</th>
            <th scope="col">Building</th>
            <StripHeading wettingMax={longest()} />
            <th scope="col">Index</th>
            <th scope="col">Wetting</th>
            <th scope="col">Rain</th>
            <th scope="col">Drainage state</th>
          </tr>
        </thead>
        <For each={props.data.rows}>{(row) => <Ranked row={row} wettingMax={longest()} />}</For>
      </table>
      <Show when={!all()}>
        <p>The whole ranking is saved from the page as a file.</p>
      </Show>
    </section>
  );
}

/** One scale over the list: the longest bar is its wettest wall. */
const wettest = (rows: readonly RankRow[]): number =>
  Math.max(0, ...rows.map(({ wetting_l_m2 }) => Number(wetting_l_m2 ?? 0)));

const placeOf = (row: RankRow): string =>
  [row.city, row.region].filter(Boolean).join(', ') || noRecord;

function Ranked(props: { readonly row: RankRow; readonly wettingMax: number }) {
  const { state } = useDesk();
  const row = () => props.row;
  const text = (column: string) => show(row()[column], column, state.units);
  const tier = () => tierOf(row());
  return (
    <tbody class="ranked">
      <tr>
        <th scope="row">
          {row().rank ?? '–'} <TierMark tier={tier()} />
          <small class="ends">{tier()}</small>
        </th>
        <td>
          <b dir="auto">{row().name ?? row().building_id}</b>
          <small>
            {row().building_id}; {placeOf(row())}
          </small>
        </td>
        <td>
          <Strip row={row()} wettingMax={props.wettingMax} />
        </td>
        <IndexCell of={row()} />
        <td class="ends">{text('wetting_l_m2')}</td>
        <td class="ends">{text('rain_mm')}</td>
        <td class="ends">{text('drainage_state')}</td>
      </tr>
      <tr class="under">
        <td colspan="7">
          {reasonIn(row(), state.units)} Code now: {needClause(row().need_code_now)}.
        </td>
      </tr>
    </tbody>
  );
}
