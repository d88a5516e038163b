import { For, type JSX, Show } from 'solid-js';
import { type ShownPlan, standingWord } from '../../analysis/survey/plan-standing.ts';
import { CautionList } from '../parts/Cautions.tsx';
import { counted, digits } from '../parts/format.ts';
import { sentenceIn } from '../parts/sentence.ts';
import { useDesk } from '../state/desk.ts';
import { PlanUnits } from './PlanUnits.tsx';
import { StrataTable } from './StrataTable.tsx';
import { unitMeaning } from './words.ts';

/** The plan on paper: what ASTM E141 asks a sampling report to state. */
export function PlanReport(props: { readonly shown: ShownPlan }) {
  const { state } = useDesk();
  const plan = () => props.shown.plan;
  const head = () => plan().head;
  return (
    <div class="plan-report">
      <h2>Sampling plan {head().planId}</h2>
      <p>
        <b>{standingWord(props.shown)}</b>
        <Show when={props.shown.locked}>
          {(locked) => (
            <>
              {' '}
              under SHA-256 <code>{locked().digest}</code>
            </>
          )}
        </Show>
      </p>
      <dl>
        <Fact term="Population">{head().population}</Fact>
        <Fact term="Frame">
          {counted(plan().frame.units, plan().unit)} as of {head().frameDate}
        </Fact>
        <Fact term="Unit">{unitMeaning[plan().unit]}</Fact>
        <Fact term="Excluded">
          <Exclusions shown={props.shown} />
        </Fact>
        <Fact term="To be included">{plan().request.mustInclude.join('; ') || 'none'}</Fact>
        <Fact term="Method">
          <For each={plan().method}>{(sentence) => <p>{sentence}</p>}</For>
        </Fact>
        <Fact term="Generator and seed">
          {plan().generator}; seed {plan().seed}
        </Fact>
        <Fact term="Chosen by">
          {head().chosenBy || 'not given'}, on {head().chosenOn || 'a day not given'}
        </Fact>
        <Fact term="Number of openings">{head().sizeReason}</Fact>
        <Fact term="Costs, the user’s own">
          <For each={Object.entries(head().costs)} fallback="not given">
            {([name, cost]) => (
              <p>
                {name}: {digits(cost, 2)}
              </p>
            )}
          </For>
        </Fact>
        <Fact term="Made by">{head().software}</Fact>
        <Fact term="Files (SHA-256)">
          <For each={Object.entries(head().inputs)}>
            {([name, digest]) => (
              <p>
                {name}: <code>{digest}</code>
              </p>
            )}
          </For>
        </Fact>
      </dl>
      <h3>Strata</h3>
      <StrataTable rows={plan().strata} unit={plan().unit} caption="Strata and their openings" />
      <Show when={plan().merged.length > 0}>
        <p>
          Merged:{' '}
          {plan()
            .merged.map((names) => names.join(' + '))
            .join('; ')}
          .
        </p>
      </Show>
      <h3>Limits, after ASTM E141</h3>
      <ul class="sample-says">
        <For each={plan().limits}>{(limit) => <li>{sentenceIn(limit, state.units)}</li>}</For>
      </ul>
      <h3>Cautions</h3>
      <CautionList />
      <h3>Units and their probabilities</h3>
      <PlanUnits shown={props.shown} all />
    </div>
  );
}

function Fact(props: { readonly term: string; readonly children: JSX.Element }) {
  return (
    <div>
      <dt>{props.term}</dt>
      <dd>{props.children}</dd>
    </div>
  );
}

function Exclusions(props: { readonly shown: ShownPlan }) {
  const counts = () =>
    props.shown.plan.frame.excluded.map(({ reason, units }) => `${reason}: ${units}`).join('; ');
  const listed = () =>
    props.shown.plan.request.exclusions.map(({ id, reason }) => `${id} (${reason})`).join('; ');
  return (
    <Show when={props.shown.plan.frame.excluded.length > 0} fallback="none">
      <p>{counts()}.</p>
      <p>{listed()}.</p>
    </Show>
  );
}
