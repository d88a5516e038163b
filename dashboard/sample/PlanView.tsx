import { For, Show } from 'solid-js';
import { fileName, planCsv, planGeojson, planJson } from '../../analysis/survey/plan-files.ts';
import type { ShownPlan } from '../../analysis/survey/plan-standing.ts';
import { counted } from '../parts/format.ts';
import { save } from '../parts/save.ts';
import { useDesk } from '../state/desk.ts';
import { PlanUnits } from './PlanUnits.tsx';
import type { Printed } from './Printout.tsx';
import { StrataTable } from './StrataTable.tsx';

/** A plan in full: how it was drawn, what is to be opened, and the ways out of the page. */
export function PlanView(props: {
  readonly shown: ShownPlan;
  readonly onPrint: (printed: Printed) => void;
}) {
  const plan = () => props.shown.plan;
  const replacements = () =>
    plan().units.filter(({ replacementOrder }) => replacementOrder !== null).length;
  return (
    <div class="plan-view">
      <p>
        <b>
          {counted(plan().units.length - replacements(), 'opening')},{' '}
          {counted(replacements(), 'replacement')}
        </b>{' '}
        from a frame of {counted(plan().frame.units, plan().unit)}; {plan().generator}, seed{' '}
        {plan().seed}.{' '}
        <Show when={!plan().probabilitySample}>
          <b>Not a probability sample.</b>
        </Show>
      </p>
      <PlanExports shown={props.shown} onPrint={props.onPrint} />
      <PlanUnits shown={props.shown} />
      <details>
        <summary>Method, strata and limits of this plan</summary>
        <StrataTable rows={plan().strata} unit={plan().unit} caption="Strata and their openings" />
        <ul class="sample-says">
          <For each={[...plan().method, ...plan().limits]}>{(sentence) => <li>{sentence}</li>}</For>
        </ul>
      </details>
    </div>
  );
}

function PlanExports(props: {
  readonly shown: ShownPlan;
  readonly onPrint: (printed: Printed) => void;
}) {
  const { state } = useDesk();
  const ways = [
    {
      word: 'CSV',
      to: () => save(fileName(props.shown, 'csv'), planCsv(props.shown, state.units), 'text/csv'),
    },
    {
      word: 'GeoJSON',
      to: () =>
        save(
          fileName(props.shown, 'geojson'),
          planGeojson(props.shown, state.units),
          'application/geo+json',
        ),
    },
    {
      word: 'JSON',
      to: () => save(fileName(props.shown, 'json'), planJson(props.shown), 'application/json'),
    },
  ];
  return (
    <p class="plan-exports">
      Save the plan:
      <For each={ways}>
        {({ word, to }) => (
          <button type="button" class="plain-button" onClick={to}>
            {word}
          </button>
        )}
      </For>
      <span>Print:</span>
      <button
        type="button"
        class="plain-button"
        onClick={() => props.onPrint({ what: 'report', shown: props.shown })}
      >
        report
      </button>
      <button
        type="button"
        class="plain-button"
        onClick={() => props.onPrint({ what: 'field sheets', shown: props.shown })}
      >
        field sheets, a page a wall
      </button>
    </p>
  );
}
