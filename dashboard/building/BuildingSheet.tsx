import { createEffect, createResource, createSignal, on, Show } from 'solid-js';
import type { BuildingDetail } from '../../analysis/session-types.ts';
import { Answer } from '../parts/Answer.tsx';
import { CautionList } from '../parts/Cautions.tsx';
import { noRecord } from '../parts/format.ts';
import { OpenNumber } from '../parts/OpenNumber.tsx';
import { reasonIn } from '../parts/reason.ts';
import { Term } from '../parts/Term.tsx';
import { TierMark } from '../parts/TierMark.tsx';
import { tierOf } from '../parts/tier-of.ts';
import { label } from '../parts/words.ts';
import { askedWords, needInFull } from '../rank/need-words.ts';
import type { Ranking } from '../rank/ranking.ts';
import { DossierButton } from '../report/DossierButton.tsx';
import { closeBuilding, openBuilding } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { Facts } from './Facts.tsx';
import { placeDoubt, placeLine, tierSpan, worthChasing } from './facts.ts';
import { Provenance } from './Provenance.tsx';
import { Timeline } from './Timeline.tsx';
import { Walls } from './Walls.tsx';
import './building.css';

/** One building opened: why it stands where it stands, what is on record, its walls, and every number's ledger. */
export function BuildingSheet(props: { readonly b: number; readonly ranking: Ranking }) {
  const desk = useDesk();
  // An address may have been written over other files.
  const known = () => props.b < props.ranking.opened.frame.n;
  const [detail] = createResource(
    () => known() && { b: props.b, version: props.ranking.opened.version },
    ({ b }) => desk.session.analyst.building(b),
  );
  const [sheet, setSheet] = createSignal<HTMLElement>();
  createEffect(on(sheet, (element) => element?.focus({ preventScroll: true })));
  const close = () => {
    desk.apply(closeBuilding);
    queueMicrotask(() => document.querySelector<HTMLElement>('[role="grid"]')?.focus());
  };
  return (
    <article
      class="building"
      tabindex={-1}
      ref={setSheet}
      aria-label="Building"
      aria-busy={detail.loading}
      onKeyDown={(event) => event.key === 'Escape' && close()}
    >
      <Toolbar b={props.b} ranking={props.ranking} known={known()} onClose={close} />
      <Show
        when={known()}
        fallback={
          <p class="panel-state" role="alert">
            There is no such building in these files: this address was written over other ones.
          </p>
        }
      >
        <Answer
          of={detail}
          wait="Opening the building …"
          trouble="This building could not be opened:"
        >
          {(found) => <Sheet detail={found()} />}
        </Answer>
      </Show>
    </article>
  );
}

function Toolbar(props: {
  readonly b: number;
  readonly ranking: Ranking;
  readonly known: boolean;
  readonly onClose: () => void;
}) {
  const desk = useDesk();
  const at = () => props.ranking.order().indexOf(props.b);
  const neighbour = (step: number) => (at() < 0 ? undefined : props.ranking.order()[at() + step]);
  const go = (b: number | undefined) => b !== undefined && desk.apply(openBuilding(b));
  return (
    <nav class="building-bar" aria-label="Building sheet">
      <button type="button" class="plain-button" onClick={() => props.onClose()}>
        Back to the ranking
      </button>
      <button
        type="button"
        class="plain-button"
        disabled={neighbour(-1) === undefined}
        onClick={() => go(neighbour(-1))}
      >
        Previous
      </button>
      <button
        type="button"
        class="plain-button"
        disabled={neighbour(1) === undefined}
        onClick={() => go(neighbour(1))}
      >
        Next
      </button>
      <Show when={props.known && at() < 0 && !props.ranking.pending()}>
        <span class="soft">Not among the buildings shown.</span>
      </Show>
      <Show when={props.known}>
        <DossierButton b={props.b} />
      </Show>
    </nav>
  );
}

function Sheet(props: { readonly detail: BuildingDetail }) {
  const row = () => props.detail.row;
  return (
    <>
      <header class="building-head">
        <h2 dir="auto">{row().name ?? row().building_id}</h2>
        <p>{placeLine(props.detail)}</p>
        <Show when={placeDoubt(props.detail)}>{(doubt) => <p class="soft">{doubt()}</p>}</Show>
      </header>
      <div class="building-top">
        <Reason detail={props.detail} />
        <Figures detail={props.detail} />
      </div>
      <Timeline detail={props.detail} />
      <Walls detail={props.detail} />
      <Facts detail={props.detail} />
      <section class="building-cautions">
        <h3>Cautions</h3>
        <CautionList />
      </section>
      <Provenance detail={props.detail} />
    </>
  );
}

function Reason(props: { readonly detail: BuildingDetail }) {
  const { state } = useDesk();
  const chase = () => worthChasing(props.detail.row);
  return (
    <div class="building-reason">
      <p class="reason-large">{reasonIn(props.detail.row, state.units)}</p>
      <Show when={chase().length > 0}>
        <p>
          <b>Records worth chasing,</b> the most telling first: {chase().join(', ')}.
        </p>
      </Show>
      <p class="soft">
        Screening, not diagnosis: no wall has been seen. Local codes and licensed practice decide.
      </p>
    </div>
  );
}

function Figures(props: { readonly detail: BuildingDetail }) {
  const row = () => props.detail.row;
  const number = (column: string) => (
    <OpenNumber
      value={row()[column]}
      column={column}
      b={props.detail.b}
      currency={row().currency}
    />
  );
  const tier = () => tierOf(row());
  return (
    <dl class="figures">
      <div>
        <dt>
          <Term of="tier">Tier</Term>
        </dt>
        <dd>
          <TierMark tier={tier()} /> {tier()} <span class="soft">{tierSpan(row())}</span>
        </dd>
      </div>
      <div>
        <dt>Rank</dt>
        <dd>{row().rank ?? '–'}</dd>
      </div>
      <div>
        <dt>
          <Term of="index">Index</Term>, 0–100
        </dt>
        <dd>
          {number('index')}{' '}
          <span class="soft">
            <Term of="low_high">from</Term> {number('index_low')} to {number('index_high')};{' '}
            <Term of="spread_over_walls">over all walls</Term> {number('index_spread')}
          </span>
        </dd>
      </div>
      <div>
        <dt>
          <Term of="wetting">Wetting</Term> of wall {row().wall_id ?? noRecord}
        </dt>
        <dd>{number('wetting_l_m2')}</dd>
      </div>
      <div>
        <dt>
          <Term of="rain">Rain</Term>
        </dt>
        <dd>
          {number('rain_mm')}{' '}
          <span class="soft">
            from {number('rain_low_mm')} to {number('rain_high_mm')}
          </span>
        </dd>
      </div>
      <Show when={props.detail.drivingRain}>
        {(found) => (
          <div>
            <dt>
              <Term of="driving_rain_index">Driving-rain index</Term>, rain × mean wind
            </dt>
            <dd>
              {found().m2PerS} m²/s{' '}
              <span class="soft">
                {found().class} by classes made for the UK; wind {found().windMs} m/s. Shown, not
                scored
              </span>
            </dd>
          </div>
        )}
      </Show>
      <div>
        <dt>
          <Term of="drainage_state">Drainage state</Term>
        </dt>
        <dd>{row().drainage_state ?? noRecord}</dd>
      </div>
      <div>
        <dt>Insured value</dt>
        <dd>{number('insured_value')}</dd>
      </div>
      <div>
        <dt>
          <Term of="sorting_weight">Sorting weight</Term>, no area of damage
        </dt>
        <dd>{number('index_weighted_area_m2')}</dd>
      </div>
      <Need row={row()} column="need_code_then" term="code_then" />
      <Need row={row()} column="need_code_now" term="code_now" />
      <Need row={row()} column="need_practice" term="practice" />
    </dl>
  );
}

function Need(props: {
  readonly row: BuildingDetail['row'];
  readonly column: string;
  readonly term: string;
}) {
  return (
    <div class="wide">
      <dt>
        <Term of={props.term}>{label(props.column)}</Term>
      </dt>
      <dd>
        {needInFull(props.row[props.column])}{' '}
        <span class="soft">{askedWords(props.row[props.column])}</span>
      </dd>
    </div>
  );
}
