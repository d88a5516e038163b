import { type JSX, Show } from 'solid-js';
import type { BuildingDetail } from '../../analysis/session-types.ts';
import { facing, show } from '../parts/format.ts';
import { OpenNumber } from '../parts/OpenNumber.tsx';
import { needInFull } from '../rank/need-words.ts';
import { useDesk } from '../state/desk.ts';
import { blankFacts, orNoRecord, wallOrigin, worthChasing } from './facts.ts';

type Wall = BuildingDetail['walls'][number];

/** What each kind of wall record is, in words. */
const kinds: Readonly<Record<string, string>> = {
  recorded: 'on record',
  remainder: 'rest of the wall area, no record',
  assumed: 'assumed: no wall on record',
  superseded: 'superseded',
};

/** Columns that only the method fills: a superseded record has none of them. */
const methodColumns = 5;

/** One wall, its record first, then what the method makes of it. */
export function WallRow(props: { readonly b: number; readonly wall: Wall }) {
  const superseded = () => props.wall.kind === 'superseded';
  return (
    <tr classList={{ superseded: superseded() }}>
      <RecordCells wall={props.wall} />
      <Show
        when={!superseded()}
        fallback={
          <td class="aside" colspan={methodColumns}>
            Not counted: a better or newer record of this wall stands.
          </td>
        }
      >
        <MethodCells b={props.b} wall={props.wall} />
      </Show>
    </tr>
  );
}

function RecordCells(props: { readonly wall: Wall }) {
  const { state } = useDesk();
  const text = (column: string) => show(props.wall[column], column, state.units);
  return (
    <>
      <th scope="row" class="tight">
        {orNoRecord(props.wall.wall_id)}
        <Line>faces {facing(props.wall.azimuth_deg)}</Line>
        <span class="kind">{kinds[String(props.wall.kind)] ?? props.wall.kind}</span>
        <span class="kind">{wallOrigin(props.wall)}</span>
      </th>
      <td class="tight">
        <Line>{orNoRecord(props.wall.material)}</Line>
        <Fact label="installed" value={text('installed')} />
        <span class="kind">{yearFrom(props.wall)}</span>
        <Fact label="area" value={text('area_m2')} />
      </td>
      <td class="tight">
        <Fact label="layers" value={orNoRecord(props.wall.drainage)} />
        <Fact label="gap" value={text('gap_mm')} />
        <Fact label="sheathing" value={orNoRecord(props.wall.sheathing)} />
      </td>
    </>
  );
}

function MethodCells(props: { readonly b: number; readonly wall: Wall }) {
  const number = (column: string) => (
    <OpenNumber
      value={props.wall[column]}
      column={column}
      b={props.b}
      wall={props.wall.wall === null ? undefined : Number(props.wall.wall)}
    />
  );
  const need = (column: string) => needInFull(props.wall[column]);
  const unknowns = () => props.wall.unknowns ?? blankFacts(props.wall);
  return (
    <>
      <td class="tight">
        <Line>{orNoRecord(props.wall.drainage_state)}</Line>
        <Fact label="gap asked" value={number('gap_asked_mm')} />
      </td>
      <td>
        <Fact label="code then" value={need('need_code_then')} />
        <Fact label="code now" value={need('need_code_now')} />
        <Fact label="practice" value={need('need_practice')} />
      </td>
      <td class="tight">
        <Line>{number('wetting_l_m2')}</Line>
        <Fact label="w" value={number('w')} />
        <Fact label="d" value={number('d')} />
        <Fact label="s" value={number('s')} />
      </td>
      <td class="tight">
        <Line strong>{number('index')}</Line>
        <Fact label="low" value={number('index_low')} />
        <Fact label="high" value={number('index_high')} />
      </td>
      <td>{worthChasing({ unknowns: unknowns() }).join(', ') || 'nothing'}</td>
    </>
  );
}

function Line(props: { readonly strong?: boolean; readonly children: JSX.Element }) {
  return (
    <span class="line" classList={{ strong: props.strong ?? false }}>
      {props.children}
    </span>
  );
}

function Fact(props: { readonly label: string; readonly value: JSX.Element }) {
  return (
    <span class="line">
      <span class="soft">{props.label}</span> {props.value}
    </span>
  );
}

/** Where the year was taken from, when not from the wall's own record. */
const yearFrom = (wall: Wall): string =>
  ({ reclad: 'from reclad year', building: 'from year built' })[String(wall.installed_from)] ?? '';
