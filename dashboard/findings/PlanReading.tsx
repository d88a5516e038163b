import { createMemo, createResource, For, Show } from 'solid-js';
import type { InferenceOptions } from '../../analysis/findings/infer.ts';
import type { Inference } from '../../analysis/findings/inference.ts';
import { planChanged } from '../../analysis/sample/plan.ts';
import { inferenceText } from '../../analysis/survey/inference-file.ts';
import type { LockedPlan } from '../../analysis/survey/plan-standing.ts';
import { Answer } from '../parts/Answer.tsx';
import { CautionList } from '../parts/Cautions.tsx';
import { counted, digits } from '../parts/format.ts';
import { save } from '../parts/save.ts';
import { sentenceIn } from '../parts/sentence.ts';
import { useDesk } from '../state/desk.ts';
import { EstimateTable } from './EstimateTable.tsx';
import { responseFigures } from './figures.ts';
import type { Printing } from './printing.ts';

/** One plan and what came of it. */
export function PlanReading(props: {
  readonly locked: LockedPlan;
  readonly options: Required<InferenceOptions>;
  readonly printing: Printing;
}) {
  const { session, survey } = useDesk();
  const plan = () => props.locked.plan;
  const id = () => plan().head.planId;
  const asked = () => {
    const findings = survey.findings();
    return findings && { findings, plan: plan(), options: props.options };
  };
  const [told] = createResource(asked, ({ plan, options }) => session.analyst.infer(plan, options));
  return (
    <section
      class="plan-reading"
      aria-label={`Plan ${id()}`}
      data-printed={props.printing.part() === id() || undefined}
    >
      <h4>Plan {id()}</h4>
      <PlanLines locked={props.locked} />
      <Answer
        of={told}
        wait="Putting the findings beside the plan …"
        trouble="The estimates could not be had:"
      >
        {(found) => (
          <>
            <Says told={found()} />
            <Show when={found().response.selected > 0}>
              <Responses told={found()} />
            </Show>
            <EstimateTable told={found()} />
            <Ways locked={props.locked} told={found()} printing={props.printing} />
          </>
        )}
      </Answer>
      <div class="print-only">
        <CautionList />
      </div>
    </section>
  );
}

/** What the plan was: population, unit, design, who chose it, and whether it is as it was locked. */
function PlanLines(props: { readonly locked: LockedPlan }) {
  const plan = () => props.locked.plan;
  const changed = createMemo(() => planChanged(plan(), props.locked.digest));
  return (
    <>
      <p class="soft">
        Unit: {plan().unit}
        {plan().unit === 'building' ? ', by its wettest wall' : ''}. Population:{' '}
        {counted(plan().frame.units, plan().unit)}, {plan().head.population}; frame of{' '}
        {plan().head.frameDate}. {plan().method[0]} Chosen by {plan().head.chosenBy} on{' '}
        {plan().head.chosenOn}.
      </p>
      <p class="soft">
        Locked {props.locked.lockedAt.slice(0, 10)}, SHA-256{' '}
        <code title={props.locked.digest}>{props.locked.digest.slice(0, 12)}…</code>:{' '}
        <Show when={changed()} fallback="unchanged since.">
          <b class="alarm" role="alert">
            the plan is not as it was locked. What follows does not rest on the plan made before
            fieldwork.
          </b>
        </Show>
      </p>
    </>
  );
}

/** Every sentence of the inference; the first is the answer. */
function Says(props: { readonly told: Inference }) {
  const { state } = useDesk();
  return (
    <ul class="says">
      <For each={props.told.says}>{(says) => <li>{sentenceIn(says, state.units)}</li>}</For>
    </ul>
  );
}

function Responses(props: { readonly told: Inference }) {
  return (
    <dl class="responses">
      <For each={responseFigures(props.told)}>
        {([term, figure]) => (
          <div>
            <dt>{term}</dt>
            <dd>{figure}</dd>
          </div>
        )}
      </For>
      <div>
        <dt>Confidence</dt>
        <dd>{digits(props.told.question.confidence * 100, 1)} %</dd>
      </div>
      <div>
        <dt>An opening shows it with chance</dt>
        <dd>{props.told.question.detection}</dd>
      </div>
    </dl>
  );
}

/** The estimates as a file and on paper. */
function Ways(props: {
  readonly locked: LockedPlan;
  readonly told: Inference;
  readonly printing: Printing;
}) {
  const { session } = useDesk();
  const id = () => props.locked.plan.head.planId;
  const write = () => {
    const demo = session.opened()?.report.demo ?? false;
    const name = `inference-${id().replace(/[^\w.-]+/g, '-')}.json`;
    save(name, inferenceText(props.locked, props.told, demo), 'application/json');
  };
  return (
    <p class="ways">
      <button type="button" class="plain-button" onClick={write}>
        Save as JSON
      </button>
      <button type="button" class="plain-button" onClick={() => props.printing.print(id())}>
        Print plan {id()}
      </button>
    </p>
  );
}
