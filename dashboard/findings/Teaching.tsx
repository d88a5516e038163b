import { createResource, createSignal, For, Show } from 'solid-js';
import type { Learnt } from '../../analysis/survey/learn.ts';
import { Answer } from '../parts/Answer.tsx';
import { digits } from '../parts/format.ts';
import { useDesk } from '../state/desk.ts';
import { gateRows, soFar } from './gates.ts';
import { ReliabilityPlot } from './ReliabilityPlot.tsx';
import type { Entry } from './register.ts';
import { WallList } from './WallList.tsx';

/** Buildings from which on every wall is read only when the reader asks for it. */
const many = 20_000;

/** What the findings teach about the index, and which walls would settle most next. */
export function Teaching(props: { readonly entries: readonly Entry[] }) {
  const { session, survey } = useDesk();
  const [wanted, setWanted] = createSignal((session.opened()?.frame.n ?? 0) < many);
  const asked = () => {
    const findings = survey.findings();
    const version = session.opened()?.version;
    return wanted() && findings ? { findings, version, plans: survey.plans() } : null;
  };
  const [learnt] = createResource(asked, ({ plans }) =>
    session.analyst.learn(plans.map(({ plan }) => plan)),
  );
  return (
    <section class="teaching" aria-labelledby="teaching-title">
      <h3 id="teaching-title">What they teach</h3>
      <Show
        when={wanted()}
        fallback={
          <button type="button" class="push-button" onClick={() => setWanted(true)}>
            Read every wall and learn from the findings
          </button>
        }
      >
        <Show when={learnt.loading}>
          <p class="learning" role="status">
            Learning from the findings, with redraws of the buildings …{' '}
            <progress aria-label="Learning" />
          </p>
        </Show>
        <Answer of={learnt} wait="" trouble="Nothing could be learnt:">
          {(found) => (
            <>
              <Calibrated learnt={found()} entries={props.entries} />
              <WallList learnt={found()} />
            </>
          )}
        </Answer>
      </Show>
    </section>
  );
}

/** Under which conditions a calibrated chance stands beside the index, and how far they are met. */
function Calibrated(props: { readonly learnt: Learnt; readonly entries: readonly Entry[] }) {
  const { survey } = useDesk();
  const calibration = () => props.learnt.calibration;
  const gates = () => gateRows(soFar(props.entries, survey.plans()), calibration());
  return (
    <>
      <p class="verdict">{calibration().says}</p>
      <section class="findings-scroll" tabindex={0} aria-label="What is asked">
        <table class="gates">
          <caption class="unseen">What is asked before anything is shown beside the index</caption>
          <thead>
            <tr>
              <th scope="col">Asked</th>
              <th scope="col">So far</th>
              <th scope="col">Missing</th>
            </tr>
          </thead>
          <tbody>
            <For each={gates()}>
              {({ asks, has, missing }) => (
                <tr>
                  <th scope="row">{asks}</th>
                  <td>{has}</td>
                  <td>{missing ?? 'nothing'}</td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </section>
      <Show when={calibration().learning}>
        {(learning) => (
          <>
            <p>
              Brier skill on buildings that it had not seen, over the overall share:{' '}
              <b>{digits(learning().skill, 2)}</b> (1 is perfect, 0 no better than the overall share
              alone).{' '}
              {calibration().shown
                ? 'The calibrated chance is shown beside the index below.'
                : 'The calibrated chance is not shown.'}
            </p>
            <ReliabilityPlot bins={learning().reliability} />
          </>
        )}
      </Show>
    </>
  );
}
