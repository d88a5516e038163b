import { createResource, Show } from 'solid-js';
import type { TierArea } from '../../analysis/session-types.ts';
import type { UnitCosts } from '../../analysis/settings.ts';
import { digits } from '../parts/format.ts';
import type { Units } from '../parts/quantity.ts';
import { areaWords, budgetWords, isAreaKnown } from '../settings/costs.ts';
import { useDesk } from '../state/desk.ts';
import type { Opened } from '../state/session.ts';

/** What the user's own unit costs come to over the walls to look at first; nothing until they are filled. */
export function BudgetLine(props: { readonly opened: Opened }) {
  const { session, state } = useDesk();
  const costs = () => (session.changes().unit_costs ?? null) as UnitCosts | null;
  const [areas] = createResource(
    () => costs() && props.opened.version,
    () => session.analyst.wallAreas(),
  );
  const first = () =>
    areas.state === 'ready' ? areas().find(({ tier }) => tier === 'First look') : undefined;
  return (
    <Show when={first()}>
      {(area) => (
        <Show when={costs()}>
          {(own) => (
            <p class="budget-line">
              <b>Budget</b> {lineWords(area(), own(), state.units)}
            </p>
          )}
        </Show>
      )}
    </Show>
  );
}

function lineWords(area: TierArea, costs: UnitCosts, units: Units): string {
  if (!isAreaKnown(area))
    return 'by your own unit cost and share: none yet, for no wall in First look has an area on record.';
  const [low, likely, high] = budgetWords(area, costs);
  const unknown =
    area.unknownArea > 0 ? ` ${digits(area.unknownArea, 0)} more have no area on record.` : '';
  return `by your own unit cost and share, over ${areaWords(area, units)} of walls in First look: ${low} to ${high} ${costs.currency}, likely ${likely}.${unknown}`;
}
