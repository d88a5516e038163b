import { For, Show } from 'solid-js';
import { sumAt } from '../../analysis/exposure/sums.ts';
import type { ExposureView } from '../../analysis/exposure/types.ts';
import { Choice } from '../parts/Choice.tsx';
import { counted, digits, noRecord } from '../parts/format.ts';
import { filterWords } from '../rank/filter-sentence.ts';
import { clearFilters } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { viewFragment } from '../state/fragment.ts';
import type { ExposureProps } from './form.ts';
import { LowHigh } from './LowHigh.tsx';
import { Heads, Sheet } from './Sheet.tsx';
import { currencyWord, isKnown, leftOut, reconciled, sumDigits, sumWords } from './words.ts';

/** Which lines are added up, that none is lost on the way, and what they come to in each currency. */
export function Head(props: ExposureProps) {
  const { state, apply } = useDesk();
  const filter = () => filterWords(state.filters, state.units);
  const total = (measure: Parameters<typeof sumAt>[1]) =>
    sumAt(props.view.pivot.total, measure, 0, 'all');
  const area = (measure: 'areaM2' | 'weightedM2') =>
    `${isKnown(props.view.pivot.total, measure, 0) ? sumWords(total(measure), measure, null, state.units) : noRecord}${bracketed(leftOut(props.view.pivot.total, measure))}`;
  return (
    <section class="exposure-head" aria-label="What is added up">
      <p class="exposure-sentence" role="status">
        <b>
          {filter() ? `Lines ${filter()}.` : 'All lines.'} {reconciled(props.view)}
        </b>{' '}
        <a href={viewFragment(state, 'Rank')}>
          {filter() ? 'Change the filter in Rank' : 'Filter in Rank'}
        </a>
        <Show when={filter()}>
          {' or '}
          <button type="button" class="plain-button" onClick={() => apply(clearFilters)}>
            clear it
          </button>
        </Show>
        .
      </p>
      <Show
        when={props.view.lines > 0}
        fallback={<p class="panel-state">No line passes the filter: there is nothing to add up.</p>}
      >
        <p>
          They stand for {digits(total('buildings'), 0)} buildings
          {bracketed(leftOut(props.view.pivot.total, 'buildings'))}. Scored wall area{' '}
          {area('areaM2')}; index-weighted area {area('weightedM2')}.
        </p>
        <Totals view={props.view} />
        <Show when={props.view.totals.currencies.length > 1}>
          <Choice
            legend="Values below in"
            words={props.view.totals.currencies.map((currency) => ({
              value: currency ?? '',
              word: currencyWord(currency),
            }))}
            value={props.view.currency ?? ''}
            onChoose={(currency) => props.onForm({ currency: currency === '' ? null : currency })}
          />
        </Show>
      </Show>
    </section>
  );
}

const bracketed = (words: string): string => (words ? ` (${words})` : '');

/** One row a currency: currencies are never added. */
function Totals(props: { readonly view: ExposureView }) {
  const { state } = useDesk();
  const sums = () => props.view.totals.sums;
  const money = (row: number, scope: 'all' | 'mean') =>
    sumDigits(sumAt(sums(), 'value', row, scope), 'value', state.units);
  return (
    <Show
      when={props.view.totals.currencies.length > 0}
      fallback={<p class="soft">No insured value is on record for any of these lines.</p>}
    >
      <Sheet
        says={`Insured value by currency; currencies are never added${bracketed(leftOutOfAll(props.view))}.`}
        class="exposure-totals"
      >
        <Heads
          words={['Currency']}
          figures={[
            'Lines with a value',
            'Insured value',
            'In the first two tiers',
            'as the priors lean, low – high',
          ]}
        />
        <tbody>
          <For each={props.view.totals.currencies}>
            {(currency, row) => (
              <tr>
                <th scope="row">{currencyWord(currency)}</th>
                <td>{digits(sumAt(sums(), 'valued', row(), 'all'), 0)}</td>
                <td>{money(row(), 'all')}</td>
                <td>{money(row(), 'mean')}</td>
                <td>
                  <LowHigh sums={sums()} group={row()} shown="value" />
                </td>
              </tr>
            )}
          </For>
        </tbody>
      </Sheet>
    </Show>
  );
}

const leftOutOfAll = ({ pivot }: ExposureView): string => {
  const n = sumAt(pivot.total, 'valueUnknown', 0, 'all');
  return n === 0 ? '' : `value not on record: ${counted(n, 'line')}`;
};
