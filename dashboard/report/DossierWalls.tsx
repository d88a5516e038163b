import { For, Show } from 'solid-js';
import type { BuildingDetail } from '../../analysis/session-types.ts';
import { blankFacts, orNoRecord, worthChasing } from '../building/facts.ts';
import { counted, digits, facing, figureOf, joined, show } from '../parts/format.ts';
import { Strip, StripLegend } from '../rank/Strip.tsx';
import { useDesk } from '../state/desk.ts';
import { needClause } from './words.ts';

type Wall = BuildingDetail['walls'][number];

/** Walls in full; a dossier of hundreds would not be read, and the export holds them all. */
const mostWalls = 60;

const headings = ['Wall', 'Cladding', 'Behind it', 'Drainage state', 'Wetting', 'Index'];

/** Every wall, the worst first: its record, the strip, and what is asked of it. */
export function DossierWalls(props: {
  readonly detail: BuildingDetail;
  readonly wettingMax: number;
}) {
  const { state } = useDesk();
  const walls = () => props.detail.walls;
  const longest = () => joined(figureOf(props.wettingMax, 'wetting', state.units));
  return (
    <section class="dossier-walls">
      <h2>{counted(walls().length, 'wall')}, the worst first</h2>
      <table class="plain walls-table">
        <thead>
          <tr>
            <For each={headings}>{(heading) => <th scope="col">{heading}</th>}</For>
            <th scope="col">
              <span class="unseen">The wall from the rain inwards</span>
              <StripLegend wettingMax={longest()} />
            </th>
          </tr>
        </thead>
        <For each={walls().slice(0, mostWalls)}>
          {(wall) => <WallLines wall={wall} wettingMax={props.wettingMax} />}
        </For>
      </table>
      <Show when={walls().length > mostWalls}>
        <p>{digits(walls().length - mostWalls, 0)} more, of lower index, are left out here.</p>
      </Show>
    </section>
  );
}

function WallLines(props: { readonly wall: Wall; readonly wettingMax: number }) {
  const { state } = useDesk();
  const wall = () => props.wall;
  const text = (column: string) => show(wall()[column], column, state.units);
  const counts = () => wall().kind !== 'superseded';
  return (
    <tbody class="wall-lines">
      <tr>
        <th scope="row">
          {orNoRecord(wall().wall_id)}
          <small>faces {facing(wall().azimuth_deg)}</small>
        </th>
        <td>
          {orNoRecord(wall().material)}
          <small>
            installed {text('installed')}, {text('area_m2')}
          </small>
        </td>
        <td>
          {orNoRecord(wall().drainage)}, gap {text('gap_mm')}
          <small>sheathing {orNoRecord(wall().sheathing)}</small>
        </td>
        <Show
          when={counts()}
          fallback={<td colspan="4">Not counted: a better or newer record of this wall stands.</td>}
        >
          <td>
            {orNoRecord(wall().drainage_state)}
            <small>gap asked {text('gap_asked_mm')}</small>
          </td>
          <td class="ends">{text('wetting_l_m2')}</td>
          <td>
            <Show when={wall().index !== null} fallback="not scored">
              <b>{text('index')}</b>
              <small class="ends">
                {text('index_low')} – {text('index_high')}
              </small>
            </Show>
          </td>
          <td>
            <Strip row={stripRow(wall())} wettingMax={props.wettingMax} />
          </td>
        </Show>
      </tr>
      <tr class="under">
        <td colspan="7">
          <Show when={counts()}>
            Code then: {needClause(wall().need_code_then)}. Code now:{' '}
            {needClause(wall().need_code_now)}. Practice: {needClause(wall().need_practice)}. Not on
            record: {worthChasing({ unknowns: blankFacts(wall()) }).join(', ') || 'nothing'}.{' '}
          </Show>
          {originWords(wall())}
        </td>
      </tr>
    </tbody>
  );
}

const kinds: Readonly<Record<string, string>> = {
  remainder: 'Rest of the wall area, no record.',
  assumed: 'Assumed: no wall on record.',
};

/** Where the record of a wall comes from. */
const originWords = (wall: Wall): string =>
  kinds[String(wall.kind)] ??
  `From ${[wall.source, wall.recorded_on, wall.row && `${wall.file}, row ${wall.row}`, wall.own].filter(Boolean).join(', ')}.`;

/** A wall as the strip draws a ranking row. */
const stripRow = (wall: Wall) => ({
  ...wall,
  adequacy: adequacyOf(wall.d),
  susceptibility: wall.s ?? null,
});

/** What drains, told by the drainage term, which never falls below its least. */
const adequacyOf = (d: Wall[string] | undefined): number | null => {
  if (typeof d !== 'number') return null;
  return d <= leastTerm ? 1 : 1 - d;
};

/** The drainage term of a wall that drains all that is asked. */
const leastTerm = 0.05;
