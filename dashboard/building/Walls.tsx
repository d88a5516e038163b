import { For } from 'solid-js';
import type { BuildingDetail } from '../../analysis/session-types.ts';
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
