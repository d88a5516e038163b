import { createEffect, createSignal, For, Index, on, Show } from 'solid-js';
import type { UnitCosts } from '../../analysis/settings.ts';
import { quantities } from '../../analysis/units.ts';
import { counted } from '../parts/format.ts';
import { useDesk } from '../state/desk.ts';
import type { Session } from '../state/session.ts';
import { type CostForm, costsOf, ends, formOf, missingIn, shownCost, storedCost } from './costs.ts';

/** Forms that were begun over the files of an opening and left half filled: they are found again as they were left. */
const begun = new WeakMap<
  Session,
  { readonly files: number | undefined; readonly form: CostForm }
>();

/** Seven fields of the user's own, empty until filled; costs are handed on once all are. */
export function CostFields(props: {
  readonly costs: UnitCosts | null;
  readonly onCosts: (costs: UnitCosts | null) => void;
}) {
  const { state, session } = useDesk();
  const files = () => session.opened()?.files;
  const left = begun.get(session);
  const [form, setForm] = createSignal<CostForm>(
    props.costs === null && left && left.files === files() ? left.form : formOf(props.costs),
  );
  // A settings file may bring others, and *reset all* takes them away.
  createEffect(
    on(
      () => props.costs,
      (costs) => {
        if (JSON.stringify(costs) !== JSON.stringify(costsOf(form()))) {
          begun.delete(session);
          setForm(formOf(costs));
        }
      },
      { defer: true },
    ),
  );
  const change = (changed: CostForm) => {
    setForm(changed);
    begun.set(session, { files: files(), form: changed });
    props.onCosts(costsOf(changed));
  };
  const put = (part: 'cost' | 'share', at: number, text: string) => {
    const [low, likely, high] = form()[part].map((old, i) => (i === at ? text : old));
    change({ ...form(), [part]: [low ?? '', likely ?? '', high ?? ''] });
  };
  const lines = () => [
    {
      title: `Cost per ${quantities.area[state.units]}`,
      value: (i: number) => shownCost(form().cost[i] ?? '', state.units),
      put: (i: number, text: string) => put('cost', i, storedCost(text, state.units)),
    },
    {
      title: 'Share of the area, 0–1',
      value: (i: number) => form().share[i] ?? '',
      put: (i: number, text: string) => put('share', i, text),
    },
  ];
  return (
    <>
      <p>
        <label>
          Currency{' '}
          <input
            type="text"
            size="5"
            placeholder="USD"
            value={form().currency}
            onChange={(event) => change({ ...form(), currency: event.currentTarget.value })}
          />
        </label>
      </p>
      <table>
        <thead>
          <tr>
            <td />
            <For each={ends}>{(end) => <th scope="col">{end}</th>}</For>
          </tr>
        </thead>
        <tbody>
          <Index each={lines()}>
            {(line) => (
              <tr>
                <th scope="row">{line().title}</th>
                <For each={ends}>
                  {(end, i) => (
                    <td>
                      <input
                        type="number"
                        min="0"
                        step="any"
                        aria-label={`${line().title}, ${end}`}
                        value={line().value(i())}
                        onChange={(event) => line().put(i(), event.currentTarget.value)}
                      />
                    </td>
                  )}
                </For>
              </tr>
            )}
          </Index>
        </tbody>
      </table>
      <Show when={missingIn(form()) > 0}>
        <p class="soft" aria-live="polite">
          {counted(missingIn(form()), 'field')} still empty: no budget yet.
        </p>
      </Show>
    </>
  );
}
