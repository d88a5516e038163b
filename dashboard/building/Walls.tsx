import { For } from 'solid-js';
import type { BuildingDetail } from '../../analysis/session-types.ts';
import { TermLine } from '../parts/TermLine.tsx';
import { WallRow } from './WallRow.tsx';

const headings = [
  'Wall',
  'Cladding',
  'Behind it',
  'Drainage',
  'Drainage need',
  'Wetting and terms',
  'Index',
  'Not on record',
];

/** What the table takes for granted. */
const walls = [
  'cladding',
  'sheathing',
  'bond_break',
  'drainage_need',
  'term_w',
  'term_d',
  'term_s',
];

/** Every wall of the building, worst first. A superseded record stays readable, struck through and out of the index. */
export function Walls(props: { readonly detail: BuildingDetail }) {
  return (
    <section class="walls">
      <h3 id="walls-title">Walls, the worst first</h3>
      <TermLine of={walls} />
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
