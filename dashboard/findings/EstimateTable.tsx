import { For, Show } from 'solid-js';
import type { Inference } from '../../analysis/findings/inference.ts';
import { digits } from '../parts/format.ts';
import { useDesk } from '../state/desk.ts';
import { type EstimateRow, estimateRows, howWords } from './figures.ts';
import { shareScale } from './plot.ts';
import { ScaleWords, Whisker } from './Whisker.tsx';

/** The estimates, each with its interval drawn to one scale and in words. */
export function EstimateTable(props: { readonly told: Inference }) {
  const { state } = useDesk();
  const rows = () => estimateRows(props.told, state.units);
  return (
    <Show when={rows().length > 0}>
      <div class="estimates">
        <table>
          <caption>
            Softened or decayed sheathing, by {props.told.unit}. Intervals with{' '}
            {digits(props.told.question.confidence * 100, 1)} % confidence.
          </caption>
          <thead>
            <tr>
              <th scope="col">Of</th>
              <th scope="col">Estimate</th>
              <th scope="col">Interval</th>
              <th scope="col">
                <ScaleWords low="0 %" high="100 %" />
              </th>
              <th scope="col">Seen in</th>
              <th scope="col">Effective n</th>
              <th scope="col">Design effect</th>
              <th scope="col">How</th>
            </tr>
          </thead>
          <tbody>
            <For each={rows()}>{(row) => <Estimate row={row} unit={props.told.unit} />}</For>
          </tbody>
        </table>
      </div>
    </Show>
  );
}

const decimal = (value: number | null, none: string): string =>
  value === null || !Number.isFinite(value) ? none : digits(value, value < 10 ? 2 : 1);

function Estimate(props: { readonly row: EstimateRow; readonly unit: string }) {
  return (
    <tr>
      <th scope="row">{props.row.of}</th>
      <td data-label="Estimate">
        <b>{props.row.says}</b>
      </td>
      <td data-label="Interval">{props.row.between}</td>
      <Show when={props.row.estimate} fallback={<td colspan={5} />}>
        {(estimate) => (
          <>
            <td>
              <Whisker
                scale={shareScale}
                low={estimate().low}
                middle={estimate().found === 0 ? null : estimate().share}
                high={estimate().high}
              />
            </td>
            <td data-label="Seen in">
              {estimate().found} of {estimate().n} opened
            </td>
            <td data-label="Effective n">{decimal(estimate().effectiveSize, 'none')}</td>
            <td data-label="Design effect">
              {decimal(estimate().designEffect, 'all alike, none')}
            </td>
            <td data-label="How" class="how">
              {howWords(estimate())}
            </td>
          </>
        )}
      </Show>
    </tr>
  );
}
