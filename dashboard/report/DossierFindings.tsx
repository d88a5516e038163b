import { For, Show } from 'solid-js';
import { extentWords, foundWords, meterWords } from '../findings/entry-words.ts';
import type { Entry } from '../findings/register.ts';
import { counted, type Value } from '../parts/format.ts';
import { plainWord } from '../parts/words.ts';
import { useDesk } from '../state/desk.ts';

const words = (value: Value): string => (value ? plainWord(`${value}`) : '');
const listed = (parts: readonly (Value | false)[]): string => parts.filter(Boolean).join(', ');

/** What was found when walls of the building were opened; nothing is printed where nothing was logged. */
export function DossierFindings(props: { readonly findings: readonly Entry[] }) {
  const { state } = useDesk();
  return (
    <Show when={props.findings.length > 0}>
      <section class="dossier-findings">
        <h2>{counted(props.findings.length, 'finding')}</h2>
        <table class="plain">
          <thead>
            <tr>
              <th scope="col">Wall</th>
              <th scope="col">Seen</th>
              <th scope="col">Found</th>
              <th scope="col">Reading</th>
              <th scope="col">Note</th>
              <th scope="col">Standing, from</th>
            </tr>
          </thead>
          <tbody>
            <For each={props.findings}>
              {({ cells, from, standing, reason, belongs }) => (
                <tr data-standing={standing}>
                  <th scope="row">{cells.wall_id}</th>
                  <td>
                    {listed([cells.observed_on || 'no date', words(cells.method), cells.observer])}
                  </td>
                  <td>
                    {listed([
                      foundWords(cells),
                      words(cells.location),
                      extentWords(cells, state.units),
                    ])}
                  </td>
                  <td>{meterWords(cells)}</td>
                  <td>{listed([cells.note, cells.photo])}</td>
                  <td>
                    {standing === 'on record' ? belongs.says : listed([standing, reason])}; {from}
                  </td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
        <p>An opening shows its own place, not the wall; a meter reading is not decay.</p>
      </section>
    </Show>
  );
}
