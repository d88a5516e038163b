import { createResource, For, Show } from 'solid-js';
import type { Range, UnitCosts } from '../../analysis/settings.ts';
import { quantities } from '../../analysis/units.ts';
import { Answer } from '../parts/Answer.tsx';
import { digits } from '../parts/format.ts';
import { useDesk } from '../state/desk.ts';

const words = ['low', 'likely', 'high'] as const;
const nothing: UnitCosts = { currency: 'USD', cost_per_m2: [0, 0, 0], share: [0, 0, 0] };

/** The user's own unit cost and share, and what they come to for the wall area in each tier. */
export function Budget(props: {
  readonly costs: UnitCosts | null;
  readonly onCosts: (costs: UnitCosts) => void;
}) {
  const { session, state } = useDesk();
  const [areas] = createResource(
    () => session.opened()?.version,
    () => session.analyst.wallAreas(),
  );
  const costs = () => props.costs ?? nothing;
  const set = (part: 'cost_per_m2' | 'share', i: number, value: number) => {
    const range = costs()[part].map((old, at) => (at === i ? value : old));
    props.onCosts({ ...costs(), [part]: range as unknown as Range });
  };
  const area = (m2: number) =>
    state.units === 'metric'
      ? `${digits(m2, 0)} m²`
      : `${digits(m2 * quantities.area.factor, 0)} ft²`;
  const money = (m2: number, i: number) =>
    `${digits(m2 * costs().cost_per_m2[i]! * costs().share[i]!, 0)} ${costs().currency}`;
  return (
    <div class="budget">
      <p class="soft">
        Yours alone, and empty until you fill it: a cost of work per m² of wall and the share of the
        area in a tier that it would be done on. Index and tier say nothing of what is decayed. A
        drainage layer added <i>while a wall is being clad anyway</i> costs about 10.76–16.15 USD/m²
        more (1.00–1.50 USD/ft²; common practice, no source): never a retrofit price.
      </p>
      <p class="budget-form">
        <label>
          Currency{' '}
          <input
            type="text"
            size="5"
            value={costs().currency}
            onChange={(event) => props.onCosts({ ...costs(), currency: event.currentTarget.value })}
          />
        </label>
        <For each={['cost_per_m2', 'share'] as const}>
          {(part) => (
            <For each={words}>
              {(word, i) => (
                <label>
                  {part === 'share' ? 'Share' : 'Cost per m²'}, {word}{' '}
                  <input
                    type="number"
                    min="0"
                    step="any"
                    value={costs()[part][i()]}
                    onChange={(event) => set(part, i(), event.currentTarget.valueAsNumber)}
                  />
                </label>
              )}
            </For>
          )}
        </For>
      </p>
      <Answer of={areas} wait="Adding up the walls …" trouble="The areas could not be had:">
        {(found) => (
          <table>
            <thead>
              <tr>
                <th scope="col">Walls in tier</th>
                <th scope="col">Walls</th>
                <th scope="col">Area</th>
                <Show when={props.costs}>
                  <For each={words}>{(word) => <th scope="col">{word}</th>}</For>
                </Show>
              </tr>
            </thead>
            <tbody>
              <For each={found()}>
                {({ tier, walls, areaM2, unknownArea }) => (
                  <tr>
                    <th scope="row">{tier}</th>
                    <td>{digits(walls, 0)}</td>
                    <td>
                      {area(areaM2)}
                      <Show when={unknownArea > 0}>
                        <span class="soft"> and {digits(unknownArea, 0)} of unknown area</span>
                      </Show>
                    </td>
                    <Show when={props.costs}>
                      <For each={words}>{(_, i) => <td>{money(areaM2, i())}</td>}</For>
                    </Show>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
        )}
      </Answer>
    </div>
  );
}
