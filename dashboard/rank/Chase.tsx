import { createResource, createSignal, For, Show } from 'solid-js';
import { Answer } from '../parts/Answer.tsx';
import { digits } from '../parts/format.ts';
import { useDesk } from '../state/desk.ts';
import type { Opened } from '../state/session.ts';
import './chase.css';

/** The same on narrow screens, folded under the list and weighed only when it is opened. */
export function ChaseFold(props: { readonly opened: Opened }) {
  const [wanted, setWanted] = createSignal(false);
  return (
    <details class="chase-fold" onToggle={(event) => event.currentTarget.open && setWanted(true)}>
      <summary>Records worth chasing</summary>
      <Show when={wanted()}>
        <Chase opened={props.opened} />
      </Show>
    </details>
  );
}

const numberWords = ['', 'One question whose answer', 'Two questions whose answers'];
const questionsLead = (n: number): string =>
  `${numberWords[n] ?? 'Three questions whose answers'} would settle most places:`;

/** Which missing records would settle most places, and the three questions to ask first. */
export function Chase(props: { readonly opened: Opened }) {
  const { session } = useDesk();
  const [chase] = createResource(
    () => props.opened.version,
    () => session.analyst.chase(),
  );
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
              tier already, from low to high.
            </p>
            <Show when={found().questions.length > 0}>
              <p>{questionsLead(found().questions.length)}</p>
              <ol>
                <For each={found().questions}>
                  {({ question, settled }) => (
                    <li>
                      {question}{' '}
                      <span class="soft">then {digits(settled, 0)} settled (estimate)</span>
                    </li>
                  )}
                </For>
              </ol>
            </Show>
            <details>
              <summary>Every fact that is missing</summary>
              <table>
                <thead>
                  <tr>
                    <th scope="col">fact</th>
                    <th scope="col">buildings without it</th>
                    <th scope="col">share of their spread</th>
                    <th scope="col">would settle, estimate</th>
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
