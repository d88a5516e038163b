import { createResource, For, Show } from 'solid-js';
import type { TierArea } from '../../analysis/session-types.ts';
import type { UnitCosts } from '../../analysis/settings.ts';
import { Answer } from '../parts/Answer.tsx';
import { useDesk } from '../state/desk.ts';
import { AreaCells } from './AreaCells.tsx';
import { CostFields } from './CostForm.tsx';
import { ends } from './costs.ts';
import { FieldTrouble } from './FieldTrouble.tsx';

/** The user's own unit cost and share, and what they come to for the wall area in each tier. */
export function Budget(props: {
  readonly costs: UnitCosts | null;
  readonly trouble: string | null;
  readonly onCosts: (costs: UnitCosts | null) => void;
}) {
  const { session } = useDesk();
  const [areas] = createResource(
    () => session.opened()?.version,
    () => session.analyst.wallAreas(),
  );
  /** Costs that cannot be taken come to nothing. */
  const taken = () => (props.trouble === null ? props.costs : null);
  return (
    <div class="budget">
      <p class="soft">
        Yours alone, and empty until you fill it: a cost of work by area of wall, and the share of
        the area in a tier that it would be done on. Index and tier say nothing of what is decayed.
        A drainage layer added <i>while a wall is being clad anyway</i> costs about 10.76–16.15
        USD/m² more (1.00–1.50 USD/ft²; common practice, no source): never a retrofit price.
      </p>
      <CostFields costs={props.costs} onCosts={props.onCosts} />
      <FieldTrouble message={props.trouble} />
      <Answer of={areas} wait="Adding up the walls …" trouble="The areas could not be had:">
        {(found) => <Areas areas={found()} costs={taken()} />}
      </Answer>
    </div>
  );
}

function Areas(props: { readonly areas: readonly TierArea[]; readonly costs: UnitCosts | null }) {
  return (
    <div class="prior-scroll">
      <table class="areas">
        <thead>
          <tr>
            <th scope="col">Walls in tier</th>
            <th scope="col">Walls</th>
            <th scope="col">Area</th>
            <th scope="col">Of unknown area</th>
            <Show when={props.costs}>
              {(costs) => (
                <For each={ends}>
                  {(end) => (
                    <th scope="col">
                      {end}, {costs().currency}
                    </th>
                  )}
                </For>
              )}
            </Show>
          </tr>
        </thead>
        <tbody>
          <For each={props.areas}>
            {(area) => (
              <tr>
                <th scope="row">{area.tier}</th>
                <AreaCells area={area} costs={props.costs} />
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </div>
  );
}
