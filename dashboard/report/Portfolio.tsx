import { For, Show } from 'solid-js';
import type { Chase, TierArea } from '../../analysis/session-types.ts';
import type { UnitCosts } from '../../analysis/settings.ts';
import { digits } from '../parts/format.ts';
import { TierMark } from '../parts/TierMark.tsx';
import { AreaCells } from '../settings/AreaCells.tsx';
import { ends } from '../settings/costs.ts';
import { shareWords } from './words.ts';

/** Which missing records would settle most places, over the whole portfolio. */
export function ChaseSheet(props: { readonly chase: Chase }) {
  return (
    <section class="keep">
      <h2>Records worth chasing, over the whole portfolio</h2>
      <p>
        {digits(props.chase.settled, 0)} of {digits(props.chase.scored, 0)} scored places lie in one
        tier already, from low to high.
      </p>
      <Show when={props.chase.questions.length > 0}>
        <p>To ask first; their answers together would settle most places:</p>
        <ol class="questions">
          <For each={props.chase.questions}>
            {({ question, settled }) => (
              <li>
                {question} Then {digits(settled, 0)} would be settled (estimate).
              </li>
            )}
          </For>
        </ol>
      </Show>
      <table class="plain numbers">
        <thead>
          <tr>
            <th scope="col">Fact that is missing</th>
            <th scope="col">Buildings without it</th>
            <th scope="col">Share of their spread</th>
            <th scope="col">Places it would settle alone (estimate)</th>
          </tr>
        </thead>
        <tbody>
          <For each={props.chase.facts}>
            {({ label, buildings, share, settles }) => (
              <tr>
                <th scope="row">{label}</th>
                <td>{digits(buildings, 0)}</td>
                <td>{shareWords(share)}</td>
                <td>{digits(settles, 0)}</td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </section>
  );
}

/** Wall area by tier, and the user's own budget over it where it is filled. */
export function MoneySheet(props: {
  readonly areas: readonly TierArea[];
  readonly costs: UnitCosts | null;
}) {
  return (
    <section class="keep">
      <h2>Wall area by tier, over the whole portfolio</h2>
      <table class="plain numbers">
        <thead>
          <tr>
            <th scope="col">Tier of the wall itself</th>
            <th scope="col">Walls</th>
            <th scope="col">Area</th>
            <th scope="col">No area on record</th>
            <Show when={props.costs}>
              {(costs) => (
                <For each={ends}>
                  {(end) => (
                    <th scope="col">
                      {costs().currency}, {end}
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
                <th scope="row">
                  <TierMark tier={area.tier} /> {area.tier}
                </th>
                <AreaCells area={area} costs={props.costs} />
              </tr>
            )}
          </For>
        </tbody>
      </table>
      <p>
        {props.costs
          ? 'Area × your own unit cost × your own share of it, low, likely and high: your figures, no price of ours and no estimate of damage.'
          : 'No unit costs are filled in under Settings: the tool has no prices of its own.'}
      </p>
    </section>
  );
}
