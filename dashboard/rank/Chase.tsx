import { createResource, For, Show } from 'solid-js';
import { Answer } from '../parts/Answer.tsx';
import { digits } from '../parts/format.ts';
import { useDesk } from '../state/desk.ts';
import type { Opened } from '../state/session.ts';
import './chase.css';

/** Which missing records would settle most places, and the three questions to ask first. */
export function Chase(props: { readonly opened: Opened }) {
  const { session } = useDesk();
  const [chase] = createResource(
    () => props.opened.version,
    () => session.analyst.chase(),
  );
  const { tierLow, tierHigh } = props.opened.frame.counts;
  return (
    <section class="chase" aria-label="Records worth chasing">
      <h3>Records worth chasing</h3>
      <Answer
        of={chase}
        wait="Weighing the unknowns …"
        trouble="The unknowns could not be weighed:"
      >
        {(found) => (
          <>
            <p>
              {digits(found().settled, 0)} of {digits(found().scored, 0)} scored places lie in one
              tier from low to high. With every prior leaning low {tierLow['First look']} would be
              First look, leaning high {tierHigh['First look']}.
            </p>
            <Show when={found().questions.length > 0}>
              <p>The answers that would settle most (an estimate):</p>
              <ol>
                <For each={found().questions}>
                  {({ question, settled }) => (
                    <li>
                      {question} <span class="soft">then {digits(settled, 0)} settled</span>
                    </li>
                  )}
                </For>
              </ol>
            </Show>
            <details>
              <summary>All facts that are missing</summary>
              <table>
                <thead>
                  <tr>
                    <th scope="col">fact</th>
                    <th scope="col">missing at</th>
                    <th scope="col">share of spread</th>
                    <th scope="col">settles</th>
                  </tr>
                </thead>
                <tbody>
                  <For each={found().facts}>
                    {({ label, buildings, share, settles }) => (
                      <tr>
                        <th scope="row">{label}</th>
                        <td>{digits(buildings, 0)}</td>
                        <td>{digits(share * 100, 0)} %</td>
                        <td>{digits(settles, 0)}</td>
                      </tr>
                    )}
                  </For>
                </tbody>
              </table>
            </details>
          </>
        )}
      </Answer>
    </section>
  );
}
