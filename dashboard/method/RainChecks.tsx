import { createResource, For, Show } from 'solid-js';
import { Answer } from '../parts/Answer.tsx';
import { digits } from '../parts/format.ts';
import { Term } from '../parts/Term.tsx';
import { TermLine } from '../parts/TermLine.tsx';
import { useDesk } from '../state/desk.ts';
import { parameterName, parameterValue } from './parameter-words.ts';

const mmPerIn = 25.4;

/** How the rain of this run was made, and how well stations left out were foretold. */
export function RainChecks() {
  const { session, state } = useDesk();
  const [report] = createResource(
    () => session.opened()?.version,
    () => session.analyst.rainReport(),
  );
  const length = (inches: number) =>
    state.units === 'metric' ? `${digits(inches * mmPerIn, 0)} mm` : `${digits(inches, 1)} in`;
  return (
    <section class="rain-checks" aria-label="Rain of this run">
      <h3>Rain of this run</h3>
      <TermLine of={['rain', 'grid', 'station']} />
      <Answer of={report} wait="Asking for the rain …" trouble="The rain could not be told:">
        {(found) => (
          <>
            <p>{found().sentence}</p>
            <p class="soft">
              {found().source}. Period: {found().period}.
            </p>
            <Show when={Object.keys(found().parameters).length > 0}>
              <dl class="parameters">
                <For each={Object.entries(found().parameters)}>
                  {([name, value]) => (
                    <div>
                      <dt>{parameterName(name)}</dt>
                      <dd>{parameterValue(name, value, state.units)}</dd>
                    </div>
                  )}
                </For>
              </dl>
            </Show>
            <Show when={found().checks.length > 0}>
              <p>
                How well each estimate tells the rain of stations that were left out, one by one and
                by cells of 2°, with the normals as recorded and shifted to today’s period.
              </p>
              <section class="reference-scroll" tabindex={0} aria-label="Stations left out">
                <table>
                  <thead>
                    <tr>
                      <th scope="col">Estimate</th>
                      <th scope="col">
                        <Term of="left_out">Left out</Term>
                      </th>
                      <th scope="col">Period</th>
                      <th scope="col" class="is-number">
                        Stations
                      </th>
                      <th scope="col" class="is-number">
                        <Term of="rmse">RMSE</Term>
                      </th>
                      <th scope="col" class="is-number">
                        <Term of="bias">Bias</Term>
                      </th>
                      <th scope="col" class="is-number">
                        <Term of="correlation">r</Term>
                      </th>
                      <th scope="col" class="is-number">
                        <Term of="same_side">Same side of 20 in</Term>
                      </th>
                    </tr>
                  </thead>
                  <tbody>
                    <For each={found().checks}>
                      {(row) => (
                        <tr>
                          <td>{row.estimate}</td>
                          <td>{row.leftOut}</td>
                          <td>{row.shifted ? 'shifted' : 'as recorded'}</td>
                          <td class="is-number">{row.n}</td>
                          <td class="is-number">{length(row.rmseIn)}</td>
                          <td class="is-number">{length(row.biasIn)}</td>
                          <td class="is-number">{row.correlation.toFixed(2)}</td>
                          <td class="is-number">{row.agreement.toFixed(2)}</td>
                        </tr>
                      )}
                    </For>
                  </tbody>
                </table>
              </section>
            </Show>
          </>
        )}
      </Answer>
    </section>
  );
}
