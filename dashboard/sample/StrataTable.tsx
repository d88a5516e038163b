import { For, Show } from 'solid-js';
import type { SampleUnit, StratumRow } from '../../analysis/sample/types.ts';
import { known } from '../../analysis/survey/plan-table.ts';
import { digits, figureOf, joined, noRecord } from '../parts/format.ts';
import { plainWord } from '../parts/words.ts';
import { useDesk } from '../state/desk.ts';

/** Strata with what they hold, and with their openings once these are settled. */
export function StrataTable(props: {
  readonly rows: readonly (StratumRow & { readonly openings?: number })[];
  readonly unit: SampleUnit;
  readonly caption: string;
}) {
  const { state } = useDesk();
  const drawn = () => props.rows.some(({ openings }) => openings !== undefined);
  const area = ({ areaM2, areaUnknown, units }: StratumRow) =>
    areaUnknown === units ? noRecord : joined(figureOf(areaM2, 'area', state.units));
  return (
    <section class="sample-scroll" tabindex={0} aria-label={props.caption}>
      <table>
        <thead>
          <tr>
            <th scope="col">Stratum</th>
            <th scope="col" class="right">
              {props.unit === 'wall' ? 'Walls' : 'Units (buildings)'}
            </th>
            <th scope="col" class="right">
              Buildings
            </th>
            <th scope="col" class="right">
              Area
            </th>
            <th scope="col" class="right">
              Of unknown area
            </th>
            <th scope="col" class="right">
              Mean index
            </th>
            <Show when={drawn()}>
              <th scope="col" class="right">
                Openings
              </th>
            </Show>
          </tr>
        </thead>
        <tbody>
          <For each={props.rows}>
            {(row) => (
              <tr>
                <th scope="row">{plainWord(row.stratum)}</th>
                <td class="right">{digits(row.units, 0)}</td>
                <td class="right">{digits(row.buildings, 0)}</td>
                <td class="right">{area(row)}</td>
                <td class="right">{digits(row.areaUnknown, 0)}</td>
                <td class="right">
                  {known(row.meanIndex) === null ? 'not scored' : digits(row.meanIndex, 1)}
                </td>
                <Show when={drawn()}>
                  <td class="right">{digits(row.openings ?? 0, 0)}</td>
                </Show>
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </section>
  );
}
