import { For } from 'solid-js';
import type { TierArea } from '../../analysis/session-types.ts';
import type { UnitCosts } from '../../analysis/settings.ts';
import { digits } from '../parts/format.ts';
import { useDesk } from '../state/desk.ts';
import { areaWords, budgetWords } from './costs.ts';

/** What stands beside a tier: its walls, their area, those without one, and the budget where costs are filled in. */
export function AreaCells(props: { readonly area: TierArea; readonly costs: UnitCosts | null }) {
  const { state } = useDesk();
  return (
    <>
      <td>{digits(props.area.walls, 0)}</td>
      <td>{areaWords(props.area, state.units)}</td>
      <td>{digits(props.area.unknownArea, 0)}</td>
      <For each={props.costs ? budgetWords(props.area, props.costs) : []}>
        {(sum) => <td>{sum}</td>}
      </For>
    </>
  );
}
