import { For, type JSX, Show } from 'solid-js';
import type { BuildingDetail } from '../../analysis/session-types.ts';
import { facing, show } from '../parts/format.ts';
import { OpenNumber } from '../parts/OpenNumber.tsx';
import { plainWord } from '../parts/words.ts';
import { needInFull } from '../rank/need-words.ts';
import { useDesk } from '../state/desk.ts';
import { blankFacts, orNoRecord, worthChasing } from './facts.ts';

type Wall = BuildingDetail['walls'][number];

/** What each kind of wall record is, in words. */
const kinds: Readonly<Record<string, string>> = {
  recorded: 'on record',
  remainder: 'rest of the wall area, no record',
  assumed: 'assumed: no wall on record',
  superseded: 'superseded by a better record',
};

const headings = [
  'Wall',
  'Cladding',
  'Drainage',
  'Drainage need',
  'Sheathing',
  'Wetting and terms',
  'Index',
  'Not on record',
];

/** Every wall of the building, worst first. A superseded record stays readable, struck through and out of the index. */
export function Walls(props: { readonly detail: BuildingDetail }) {
  return (
    <section class="walls">
      <h3 id="walls-title">Walls, the worst first</h3>
      <section class="walls-scroll" tabindex={0} aria-labelledby="walls-title">
        <table>
          <thead>
            <tr>
              <For each={headings}>{(heading) => <th scope="col">{heading}</th>}</For>
            </tr>
          </thead>
          <tbody>
            <For each={props.detail.walls}>
              {(wall) => <WallRow b={props.detail.b} wall={wall} />}
            </For>
          </tbody>
        </table>
      </section>
    </section>
  );
}

function WallRow(props: { readonly b: number; readonly wall: Wall }) {
  const { state } = useDesk();
  const wall = () => props.wall;
  const superseded = () => wall().kind === 'superseded';
  const text = (column: string) => show(wall()[column], column, state.units);
  const ordinal = () =>
    typeof wall().wall === 'number' ? Math.trunc(wall().wall as number) : undefined;
  const number = (column: string) => (
    <Show when={!superseded()} fallback="–">
      <OpenNumber value={wall()[column]} column={column} b={props.b} wall={ordinal()} />
    </Show>
  );
  const installed = () => {
    const from = wall().installed_from;
    return from && from !== 'installed'
      ? `${text('installed')}, from ${plainWord(String(from))}`
      : text('installed');
  };
  const words = (column: string) => (superseded() ? '–' : orNoRecord(wall()[column]));
  const need = (column: string) => (superseded() ? '–' : needInFull(wall()[column]));
  const unknowns = () => wall().unknowns ?? blankFacts(wall());
  return (
    <tr classList={{ superseded: superseded() }}>
      <th scope="row" class="tight">
        {orNoRecord(wall().wall_id)}
        <Line>faces {facing(wall().azimuth_deg)}</Line>
        <span class="kind">{kinds[String(wall().kind)] ?? String(wall().kind)}</span>
        <span class="kind">{origin(wall())}</span>
      </th>
      <td class="tight">
        <Line>{orNoRecord(wall().material)}</Line>
        <Fact label="installed" value={installed()} />
        <Fact label="area" value={text('area_m2')} />
      </td>
      <td class="tight">
        <Line>{words('drainage_state')}</Line>
        <Fact label="layers" value={orNoRecord(wall().drainage)} />
        <Fact label="gap" value={text('gap_mm')} />
        <Fact label="gap asked" value={number('gap_asked_mm')} />
      </td>
      <td>
        <Fact label="code then" value={need('need_code_then')} />
        <Fact label="code now" value={need('need_code_now')} />
        <Fact label="practice" value={need('need_practice')} />
      </td>
      <td>{orNoRecord(wall().sheathing)}</td>
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
      <td>{worthChasing(unknowns()).join(', ') || '–'}</td>
    </tr>
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

/** Where the record comes from: *survey, 2014-05-02, row 21*. */
const origin = (wall: Wall): string =>
  [wall.source, wall.recorded_on, wall.row && `row ${wall.row}`].filter(Boolean).join(', ');
