import { createResource, For, Show } from 'solid-js';
import { type SumTable, sumAt } from '../../analysis/exposure/sums.ts';
import type { ExposureView } from '../../analysis/exposure/types.ts';
import { tiers } from '../../analysis/session-types.ts';
import { counted, digits, figureOf, joined } from '../parts/format.ts';
import { quantities } from '../parts/quantity.ts';
import { useDesk } from '../state/desk.ts';
import { BuildingDoor } from './BuildingDoor.tsx';
import { type ExposureProps, radiusLimits } from './form.ts';
import { LowHigh } from './LowHigh.tsx';
import { Heads, Sheet } from './Sheet.tsx';
import { currencyWord, isKnown, sumDigits, sumWords } from './words.ts';

/** Where insured value of the first two tiers lies together. */
export function Clusters(props: ExposureProps) {
  const { session, state } = useDesk();
  const found = () => props.view.clusters;
  const [rows] = createResource(
    () => found().centre,
    (centre) => session.analyst.rows(centre),
  );
  const row = (i: number) => (rows.state === 'ready' ? rows()[i] : undefined);
  const says = () =>
    `Insured value in the first two tiers within ${radius()} of a building, ${currencyWord(props.view.currency)}, greatest first; no line is in two circles.`;
  const radius = () => joined(figureOf(found().radiusKm, 'far', state.units));
  return (
    <section aria-label="Clusters">
      <h3>Value that lies together</h3>
      <Radius km={props.form.radiusKm} onKm={(radiusKm) => props.onForm({ radiusKm })} />
      <Show
        when={found().centre.length > 0}
        fallback={
          <p class="panel-state">
            No located line of the first two tiers has an insured value,{' '}
            {currencyWord(props.view.currency)}.
          </p>
        }
      >
        <Sheet says={says()} class="exposure-clusters">
          <Heads
            words={['No.', 'Building in the middle']}
            figures={['Value, first two tiers', 'Share', 'First look', 'Next look', 'All tiers']}
          />
          <tbody>
            <For each={[...found().centre]}>
              {(b, i) => (
                <tr>
                  <td>{i() + 1}</td>
                  <th scope="row">
                    <BuildingDoor b={b} row={row(i())} />
                  </th>
                  <td>
                    {sumDigits(sumAt(found().sums, 'value', i(), 'mean'), 'value', state.units)}
                    <LowHigh sums={found().sums} group={i()} shown="value" />
                  </td>
                  <td>{share(props.view, i())}</td>
                  <td>
                    <Part sums={found().byTier} group={i() * tiers.length} />
                  </td>
                  <td>
                    <Part sums={found().byTier} group={i() * tiers.length + 1} />
                  </td>
                  <td>
                    <Part sums={found().sums} group={i()} />
                  </td>
                </tr>
              )}
            </For>
          </tbody>
        </Sheet>
      </Show>
      <Aside view={props.view} />
    </section>
  );
}

function Radius(props: { readonly km: number; readonly onKm: (km: number) => void }) {
  const { state } = useDesk();
  const { from, to } = radiusLimits;
  const per = () => quantities.far[state.units].times;
  const rounded = (km: number) => Math.round(km * per() * 100) / 100;
  const take = (shown: number) => {
    const km = shown / per();
    if (Number.isFinite(km)) props.onKm(Math.min(to, Math.max(from, Math.round(km * 1e6) / 1e6)));
  };
  return (
    <label class="exposure-field">
      Radius
      <input
        type="number"
        min={rounded(from)}
        max={rounded(to)}
        step="any"
        value={rounded(props.km)}
        onChange={(event) => {
          take(event.currentTarget.valueAsNumber);
          event.currentTarget.value = String(rounded(props.km));
        }}
      />
      {quantities.far[state.units].unit}
      <span class="soft">
        {rounded(from)} to {rounded(to)}
      </span>
    </label>
  );
}

/** Of the value of the first two tiers that is shown, wherever it is placed. */
function share({ clusters, pivot }: ExposureView, i: number): string {
  const all = sumAt(pivot.total, 'value', 0, 'mean');
  return `${digits((100 * sumAt(clusters.sums, 'value', i, 'mean')) / all, 1)}%`;
}

/** A value, and beneath it the buildings. */
function Part(props: { readonly sums: SumTable; readonly group: number }) {
  const { state } = useDesk();
  return (
    <>
      {sumDigits(sumAt(props.sums, 'value', props.group, 'all'), 'value', state.units)}
      <span class="low-high">
        {counted(sumAt(props.sums, 'buildings', props.group, 'all'), 'building')}
      </span>
    </>
  );
}

/** Places that no circle may rest on, counted with what they are insured for. */
function Aside(props: { readonly view: ExposureView }) {
  const { state } = useDesk();
  const placed = () => props.view.clusters.placed;
  const words = (why: string, group: number) => {
    const lines = counted(sumAt(placed(), 'lines', group, 'all'), 'line');
    if (!isKnown(placed(), 'value', group)) return `${why}, ${lines} with no value to add`;
    const value = sumAt(placed(), 'value', group, 'mean');
    return `${why}, ${lines} with ${sumWords(value, 'value', props.view.currency, state.units)} in the first two tiers`;
  };
  const left = () =>
    [words('placed by postal code only', 1), words('without a place', 2)].filter(
      (_, i) => sumAt(placed(), 'lines', i + 1, 'all') > 0,
    );
  return (
    <Show when={left().length > 0}>
      <p class="soft">Left out of every circle: {left().join('; ')}.</p>
    </Show>
  );
}
