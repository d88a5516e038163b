import { createMemo, createSignal, Show } from 'solid-js';
import type { PlanHead } from '../../analysis/sample/plan.ts';
import type { Outcome, StratumField, StratumRow } from '../../analysis/sample/types.ts';
import { lockedPlan, missingForLock, type ShownPlan } from '../../analysis/survey/plan-standing.ts';
import type { PopulationQuery } from '../../analysis/survey/walls.ts';
import { softwareName } from '../../analysis/version.ts';
import { messageOf } from '../parts/message-of.ts';
import { TermLine } from '../parts/TermLine.tsx';
import { useDesk } from '../state/desk.ts';
import { choicesOf, sampleDraft, withHead } from './draft.ts';
import { planIdFor } from './form.ts';
import { PlanForm } from './PlanForm.tsx';
import { PlanView } from './PlanView.tsx';
import type { Printed } from './Printout.tsx';
import { requestOf } from './request-of.ts';
import { Says } from './Says.tsx';
import { plannedCosts, reasonForSize, type SizeAnswer } from './size-answer.ts';
import { populationWords } from './words.ts';

/** What is asked of the analysis, and of which opening of the files. */
export interface Asked {
  readonly version: number;
  readonly population: PopulationQuery;
  readonly fields: readonly StratumField[];
}

/** Step 4: the draw, its list of walls, and the lock. */
export function Plan(props: {
  readonly asked: Asked;
  readonly rows: readonly StratumRow[];
  readonly answer: Outcome<SizeAnswer>;
  readonly ready: boolean;
  readonly onPrint: (printed: Printed) => void;
}) {
  const desk = useDesk();
  const { form, change, draft, setDraft } = sampleDraft(desk);
  const [wrong, setWrong] = createSignal<readonly string[]>([]);
  const [busy, setBusy] = createSignal(false);
  const taken = () => desk.survey.plans().map(({ plan }) => plan.head.planId);
  const planId = () => form().planId ?? planIdFor(form().chosenOn, taken());
  const sizeReason = () => form().sizeReason ?? reasonForSize(form(), props.answer);
  const asked = createMemo(() =>
    requestOf(
      form(),
      props.rows.map(({ stratum }) => stratum),
    ),
  );
  const choices = createMemo(() => {
    const found = asked();
    const population = JSON.stringify(props.asked.population);
    return found.ok ? choicesOf(props.asked.version, population, found.request) : '';
  });
  const head = (): PlanHead => ({
    planId: planId().trim(),
    population: populationWords(form().unit, desk.state.filters, desk.state.units),
    frameDate: form().frameDate,
    chosenBy: form().chosenBy.trim(),
    chosenOn: form().chosenOn,
    software: softwareName,
    inputs: {},
    costs: plannedCosts(form()),
    sizeReason: sizeReason().trim(),
  });
  const draw = async () => {
    const found = asked();
    setWrong(found.ok ? [] : found.says);
    if (!found.ok) return;
    const made = choices();
    setBusy(true);
    try {
      const drawn = await desk.session.analyst.draw(props.asked.population, found.request, head());
      setWrong(drawn.ok ? [] : drawn.says);
      setDraft(drawn.ok ? { drawn, says: drawn.says, choices: made } : null);
    } catch (error) {
      setWrong([`The sample could not be drawn: ${messageOf(error)}`]);
    } finally {
      setBusy(false);
    }
  };
  return (
    <section aria-label="Plan">
      <h3>Plan</h3>
      <TermLine of={['plan', 'seed']} />
      <PlanForm form={form()} onForm={change} planId={planId()} sizeReason={sizeReason()} />
      <p>
        <button
          type="button"
          class="push-button"
          data-main
          disabled={busy() || !props.ready}
          aria-busy={busy()}
          onClick={draw}
        >
          Draw the sample
        </button>
      </p>
      <Says says={wrong()} tone="alarm" />
      <Show when={draft()}>
        {(one) => (
          <DraftPlan
            shown={{ ...oneWith(one().drawn, head()), locked: null }}
            says={one().says}
            stale={one().choices !== choices()}
            taken={taken()}
            onPrint={props.onPrint}
            onLocked={() => {
              setDraft(null);
              change({ planId: null, sizeReason: null });
            }}
          />
        )}
      </Show>
    </section>
  );
}

/** The draft with what the form says of it now; population and files are those of the draw. */
function oneWith({ plan, field }: Pick<ShownPlan, 'plan' | 'field'>, head: PlanHead) {
  const { population: _, inputs: __, ...said } = head;
  return { plan: withHead(plan, said), field };
}

function DraftPlan(props: {
  readonly shown: ShownPlan;
  readonly says: readonly string[];
  readonly stale: boolean;
  readonly taken: readonly string[];
  readonly onPrint: (printed: Printed) => void;
  readonly onLocked: () => void;
}) {
  const { survey } = useDesk();
  const missing = () => missingForLock(props.shown.plan, props.taken);
  const lock = () => {
    survey.lock(lockedPlan(props.shown, new Date().toISOString()));
    props.onLocked();
  };
  return (
    <div class="draft-plan">
      <h4>{props.shown.plan.head.planId}: DRAFT, not locked</h4>
      <Says says={props.says} />
      <Show when={props.stale}>
        <p role="status">
          <b>The choices above are not those of this draw any more: draw again.</b>
        </p>
      </Show>
      <Says says={missing()} />
      <p>
        <button
          type="button"
          class="push-button"
          disabled={props.stale || missing().length > 0}
          onClick={lock}
        >
          Lock the plan
        </button>{' '}
        <span class="soft">
          Before fieldwork. A locked plan can be forgotten, not changed: its SHA-256 shows any later
          change.
        </span>
      </p>
      <PlanView shown={props.shown} onPrint={props.onPrint} />
    </div>
  );
}
