import { For, Show } from 'solid-js';
import { type Tier, tiers } from '../../analysis/session-types.ts';
import { steps } from '../method/steps.ts';
import { CautionList } from '../parts/Cautions.tsx';
import { digits } from '../parts/format.ts';
import { TierMark } from '../parts/TierMark.tsx';
import { label } from '../parts/words.ts';
import { countWords, filterWords, orderWords } from '../rank/filter-sentence.ts';
import { useDesk } from '../state/desk.ts';
import { EraTable, IndexHistogram, RegionBars } from './Charts.tsx';
import { OriginSheet } from './OriginSheet.tsx';
import { Marks, PaperMap } from './PaperMap.tsx';
import { ChaseSheet, MoneySheet } from './Portfolio.tsx';
import { RankedList } from './RankedList.tsx';
import type { ReportData } from './report-data.ts';
import type { Tallies } from './tallies.ts';

/** The portfolio, or the part of it that is shown, on paper. */
export function Report(props: { readonly data: ReportData }) {
  return (
    <article class="report">
      <Head data={props.data} />
      <TierTable tallies={props.data.tallies} />
      <SheetMap map={props.data.map} />
      <section class="charts">
        <IndexHistogram tallies={props.data.tallies} />
        <RegionBars tallies={props.data.tallies} />
        <EraTable tallies={props.data.tallies} />
      </section>
      <RankedList data={props.data} />
      <ChaseSheet chase={props.data.chase} />
      <MoneySheet areas={props.data.areas} costs={props.data.costs} />
      <MethodSheet />
      <section class="paper-cautions">
        <h2>Cautions</h2>
        <CautionList />
      </section>
      <OriginSheet origin={props.data.origin} />
    </article>
  );
}

function Head(props: { readonly data: ReportData }) {
  const { state } = useDesk();
  const words = () => filterWords(state.filters, state.units);
  const order = () => orderWords(state, label(state.sort?.column ?? 'rank')).words;
  return (
    <header class="report-head">
      <h1>Portfolio report</h1>
      <p class="job-line">
        Which walls take the most rain with the least drainage behind the cladding?
      </p>
      <p class="standing">
        {countWords(props.data.tallies.n, props.data.all)}
        {words() ? `, ${words()}` : ''}, {order()}.
      </p>
      <p>
        <b>Screening, not diagnosis: no wall has been seen.</b> A low place is not a clearance.
        Leaks, stains, soft floors, cracked or loose cladding, sagging balconies, decks or stairs
        come first, whatever the rank. Local codes and licensed practice decide.
      </p>
    </header>
  );
}

function TierTable(props: { readonly tallies: Tallies }) {
  const share = (n: number) => (n / Math.max(1, props.tallies.n)) * 100;
  return (
    <section class="keep">
      <h2>Buildings by tier</h2>
      <table class="plain numbers">
        <thead>
          <tr>
            <th scope="col">Tier</th>
            <th scope="col">Buildings</th>
            <th scope="col">Share</th>
            <th scope="col">all unknowns leaning low</th>
            <th scope="col">all unknowns leaning high</th>
          </tr>
        </thead>
        <tbody>
          <For each={tiers}>
            {(tier: Tier, i) => (
              <tr>
                <th scope="row">
                  <TierMark tier={tier} /> {tier}
                </th>
                <td>{digits(props.tallies.tier[i()] ?? 0, 0)}</td>
                <td>{digits(share(props.tallies.tier[i()] ?? 0), 1)} %</td>
                <td>{digits(props.tallies.low[i()] ?? 0, 0)}</td>
                <td>{digits(props.tallies.high[i()] ?? 0, 0)}</td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
      <p>
        What is not on record is spread over what is likely; the two last columns are what the
        counts would be, were all of it at its low or all of it at its high end.
      </p>
    </section>
  );
}

function SheetMap(props: { readonly map: ReportData['map'] }) {
  return (
    <figure class="report-map">
      <Show when={props.map} fallback={<figcaption>No building shown has a place.</figcaption>}>
        {(map) => (
          <>
            <PaperMap picture={map().picture} label="Yearly rain, and the buildings by tier">
              <Marks picture={map().picture} marks={map().marks} />
            </PaperMap>
            <figcaption>
              <For each={tiers}>
                {(tier) => (
                  <span class="key">
                    <TierMark tier={tier} /> {tier}
                  </span>
                )}
              </For>
              A mark stands for the buildings close around it: it shows the foremost tier among
              them, and is the larger the more they are. Shading and lines: yearly rain as read from
              the grid, before stations adjust it; the line of 20 inches (508 mm) is heavier.
            </figcaption>
          </>
        )}
      </Show>
    </figure>
  );
}

/** The method in half a page. */
function MethodSheet() {
  return (
    <section class="method-sheet keep">
      <h2>How the index comes about, and what it is not</h2>
      <p>
        The index sorts walls by wetting, missing drainage and sheathing. It is not a probability of
        decay, not an area of damage, not a rating, and it says nothing of a wall that nobody has
        opened. Tables typed from memory of a standard say so; what is judgement says so.
      </p>
      <dl>
        <For each={steps}>
          {(step) => (
            <div>
              <dt>{step.title}</dt>
              <dd>
                {step.text}
                <Show when={step.formula}>
                  {' '}
                  <b>{step.formula}.</b>
                </Show>
                <Show when={step.source}> Source: {step.source}</Show>
              </dd>
            </div>
          )}
        </For>
      </dl>
    </section>
  );
}
