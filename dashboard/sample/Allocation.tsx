import { For, Show } from 'solid-js';
import type { StratumRow } from '../../analysis/sample/types.ts';
import { Choice } from '../parts/Choice.tsx';
import { counted, digits } from '../parts/format.ts';
import { plainWord } from '../parts/words.ts';
import type { SampleForm } from './form.ts';
import { handTotal } from './request-of.ts';

const ways = [
  { value: 'proportional', word: 'in proportion' },
  { value: 'neyman', word: 'by expected shares (Neyman)' },
  { value: 'by hand', word: 'by hand' },
] as const;

/** How the openings are shared out over the strata. */
export function Allocation(props: {
  readonly form: SampleForm;
  readonly onForm: (part: Partial<SampleForm>) => void;
  readonly strata: readonly StratumRow[];
}) {
  const names = () => props.strata.map(({ stratum }) => stratum);
  const key = () => (props.form.allocation === 'neyman' ? 'shares' : 'byHand');
  const heading = () =>
    props.form.allocation === 'neyman' ? 'Expected share decayed, %' : 'Openings';
  const put = (stratum: string, text: string) =>
    props.onForm({ [key()]: { ...props.form[key()], [stratum]: text } });
  return (
    <>
      <Choice
        legend="Allocation"
        words={ways}
        value={props.form.allocation}
        onChoose={(allocation) => props.onForm({ allocation })}
      />
      <Show when={props.form.allocation !== 'proportional'}>
        <div class="sample-scroll">
          <table>
            <thead>
              <tr>
                <th scope="col">Stratum</th>
                <th scope="col" class="right">
                  {props.form.unit === 'wall' ? 'Walls' : 'Buildings'}
                </th>
                <th scope="col" class="right">
                  {heading()}
                </th>
              </tr>
            </thead>
            <tbody>
              <For each={props.strata}>
                {({ stratum, units }) => (
                  <tr>
                    <th scope="row">{plainWord(stratum)}</th>
                    <td class="right">{digits(units, 0)}</td>
                    <td class="right">
                      <input
                        type="number"
                        min="0"
                        step="any"
                        aria-label={`${heading()}, ${stratum}`}
                        value={props.form[key()][stratum] ?? ''}
                        onInput={(event) => put(stratum, event.currentTarget.value)}
                      />
                    </td>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
        </div>
      </Show>
      <Show when={props.form.allocation === 'by hand'}>
        <p aria-live="polite">{counted(handTotal(props.form, names()), 'opening')} in all.</p>
      </Show>
      <Show when={props.form.allocation === 'neyman'}>
        <p class="soft">An empty field counts as 50 %.</p>
      </Show>
    </>
  );
}
