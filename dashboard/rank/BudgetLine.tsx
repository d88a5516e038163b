import { createResource, Show } from 'solid-js';
import type { TierArea } from '../../analysis/session-types.ts';
import type { UnitCosts } from '../../analysis/settings.ts';
import { digits, figureOf, joined } from '../parts/format.ts';
import type { Units } from '../parts/quantity.ts';
import { budgetOf, roundSum } from '../settings/costs.ts';
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
              <b>Budget</b> {budgetWords(area(), own(), state.units)}
            </p>
          )}
        </Show>
      )}
    </Show>
  );
}

function budgetWords(area: TierArea, costs: UnitCosts, units: Units): string {
  const [low, likely, high] = budgetOf(area.areaM2, costs).map((sum) => digits(roundSum(sum), 0));
  const walls = joined(figureOf(area.areaM2, 'area', units));
  const unknown =
    area.unknownArea > 0 ? ` ${digits(area.unknownArea, 0)} more have no area on record.` : '';
  return `by your own unit cost and share, over ${walls} of walls in First look: ${low} to ${high} ${costs.currency}, likely ${likely}.${unknown}`;
}
