import { For, Show } from 'solid-js';
import { constantUnder } from '../../analysis/constants.ts';
import type { BuildingDetail } from '../../analysis/session-types.ts';
import { blankFacts, orNoRecord, wallOrigin, worthChasing } from '../building/facts.ts';
import { counted, digits, facing, show } from '../parts/format.ts';
import { Strip } from '../rank/Strip.tsx';
import { useDesk } from '../state/desk.ts';
import { IndexCell } from './IndexCell.tsx';
import { StripHeading } from './StripHeading.tsx';
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
  const walls = () => props.detail.walls;
  return (
    <section class="dossier-walls">
      <h2>{counted(walls().length, 'wall')}, the worst first</h2>
      <table class="plain walls-table">
        <thead>
          <tr>
            <For each={headings}>{(heading) => <th scope="col">{heading}</th>}</For>
            <StripHeading wettingMax={props.wettingMax} />
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
  const { session, state } = useDesk();
  /** The drainage term of a wall that drains all that is asked. */
  const leastTerm = () => constantUnder(session.changes(), 'deficiency_floor');
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
          <IndexCell of={wall()} />
          <td>
            <Strip row={stripRow(wall(), leastTerm())} wettingMax={props.wettingMax} />
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
const originWords = (wall: Wall): string => kinds[String(wall.kind)] ?? `From ${wallOrigin(wall)}.`;

/** A wall as the strip draws a ranking row. */
const stripRow = (wall: Wall, leastTerm: number) => ({
  ...wall,
  adequacy: adequacyOf(wall.d, leastTerm),
  susceptibility: wall.s ?? null,
});

/** What drains, told by the drainage term, which never falls below its least. */
const adequacyOf = (d: Wall[string] | undefined, leastTerm: number): number | null => {
  if (typeof d !== 'number') return null;
  return d <= leastTerm ? 1 : 1 - d;
};
