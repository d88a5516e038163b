import { createResource, For, Show } from 'solid-js';
import type { ReferralRequest } from '../../analysis/exposure/referral.ts';
import { sumAt } from '../../analysis/exposure/sums.ts';
import { tiers } from '../../analysis/session-types.ts';
import { counted, digits, money } from '../parts/format.ts';
import { reasonIn } from '../parts/reason.ts';
import { TierMark } from '../parts/TierMark.tsx';
import { tierOf } from '../parts/tier-of.ts';
import { useDesk } from '../state/desk.ts';
import type { RankRow } from '../state/rows.ts';
import { BuildingDoor } from './BuildingDoor.tsx';
import type { ExposureProps } from './form.ts';
import { criteriaWords, whyWords } from './referral-words.ts';
import { Sheet } from './Sheet.tsx';
import { currencyWord, isKnown, sumWords } from './words.ts';

/** Rows on screen; the file has all of them. */
const firstRows = 200;

/** Buildings that an underwriter would send on, by criteria of the reader's own. */
export function Referral(props: ExposureProps) {
  const { session } = useDesk();
  const found = () => props.view.referral;
  const [rows] = createResource(
    () => found().ordinals.slice(0, firstRows),
    (ordinals) => session.analyst.rows(ordinals),
  );
  const shown = () =>
    rows.state === 'ready' || rows.state === 'refreshing' ? (rows.latest ?? []) : [];
  const order = () =>
    props.view.totals.currencies.length > 1
      ? `By tier, then value, ${currencyWord(props.view.currency)}; other values after those, in no order of value.`
      : 'By tier, then value.';
  const says = () =>
    found().ordinals.length > firstRows
      ? `${order()} The first ${firstRows} of ${digits(found().ordinals.length, 0)}; the file has all of them.`
      : order();
  return (
    <section aria-label="Referral list">
      <h3>To refer</h3>
      <Criteria {...props} />
      <Summary {...props} />
      <Show when={found().ordinals.length > 0}>
        <Sheet says={says()} class="exposure-referral">
          <thead>
            <tr>
              <th scope="col">Building</th>
              <th scope="col" class="words">
                Tier
              </th>
              <th scope="col" class="right">
                Insured value
              </th>
              <th scope="col" class="words">
                Why
              </th>
            </tr>
          </thead>
          <tbody>
            <For each={shown()}>
              {(row, i) => (
                <Line {...props} row={row} b={found().ordinals[i()]!} why={found().why[i()]!} />
              )}
            </For>
          </tbody>
        </Sheet>
      </Show>
    </section>
  );
}

function Line(
  props: ExposureProps & { readonly row: RankRow; readonly b: number; readonly why: number },
) {
  const { state } = useDesk();
  return (
    <tr>
      <th scope="row">
        <BuildingDoor b={props.b} row={props.row} />
      </th>
      <td class="words">
        <TierMark tier={tierOf(props.row)} /> {props.row.tier}
        <span class="low-high">
          {props.row.tier_low} – {props.row.tier_high}
        </span>
      </td>
      <td>{money(props.row.insured_value, props.row.currency)}</td>
      <td class="words why">
        {whyWords(props.why, props.row, props.form.referral)} {reasonIn(props.row, state.units)}
      </td>
    </tr>
  );
}

function Criteria(props: ExposureProps) {
  const asked = () => props.form.referral;
  const change = (part: Partial<ReferralRequest>) =>
    props.onForm({ referral: { ...asked(), ...part } });
  return (
    <div class="exposure-form">
      <TierPick label="Tier at least" value={asked().tier} onPick={(tier) => change({ tier })} />
      <TierPick
        label="or, priors leaning high, at least"
        value={asked().tierHigh}
        onPick={(tierHigh) => change({ tierHigh })}
      />
      <Least
        label="or index at least"
        value={asked().index}
        onValue={(index) => change({ index })}
      />
      <Least
        label="and insured for at least"
        unit={currencyWord(props.view.currency)}
        value={asked().value}
        onValue={(value) => change({ value })}
      />
      <label class="exposure-check">
        <input
          type="checkbox"
          checked={asked().unknownValue}
          disabled={asked().value === null}
          onChange={(event) => change({ unknownValue: event.currentTarget.checked })}
        />
        or value not on record
      </label>
    </div>
  );
}

function TierPick(props: {
  readonly label: string;
  readonly value: number | null;
  readonly onPick: (tier: number | null) => void;
}) {
  return (
    <label>
      {props.label}
      <select
        value={props.value === null ? '' : String(props.value)}
        onChange={({ currentTarget: { value } }) =>
          props.onPick(value === '' ? null : Number(value))
        }
      >
        <option value="">not asked</option>
        <For each={tiers.slice(0, 3)}>
          {(tier, i) => (
            <option value={String(i())} selected={props.value === i()}>
              {tier}
            </option>
          )}
        </For>
      </select>
    </label>
  );
}

function Least(props: {
  readonly label: string;
  readonly unit?: string;
  readonly value: number | null;
  readonly onValue: (value: number | null) => void;
}) {
  return (
    <label class="exposure-field">
      {props.label}
      <input
        type="number"
        min="0"
        step="any"
        placeholder="any"
        value={props.value ?? ''}
        onChange={({ currentTarget: { valueAsNumber } }) =>
          props.onValue(Number.isFinite(valueAsNumber) ? Math.max(0, valueAsNumber) : null)
        }
      />
      {props.unit}
    </label>
  );
}

/** How long the list is, and what could not be held against what it asks. */
function Summary(props: ExposureProps) {
  const { state } = useDesk();
  const found = () => props.view.referral;
  const aside = () =>
    [
      [found().valueUnknown, 'meet the rest and have no value on record'],
      [found().valuedElsewhere, 'are insured in another currency'],
      [found().notScored, 'were not scored and could not be told'],
    ] as const;
  const left = () =>
    aside()
      .filter(([n]) => n > 0)
      .map(([n, words]) => `${digits(n, 0)} ${words}`)
      .join('; ');
  const insured = () =>
    isKnown(found().sums, 'value', 0)
      ? `, ${sumWords(sumAt(found().sums, 'value', 0, 'all'), 'value', props.view.currency, state.units)}`
      : '';
  return (
    <p role="status">
      <b>
        {counted(found().ordinals.length, 'line')}
        {insured()}
      </b>
      : {criteriaWords(props.form.referral, props.view.currency)}.{' '}
      {left() && `Not listed: ${left()}.`}{' '}
      <span class="soft">What is not on the list has not been cleared.</span>
    </p>
  );
}
