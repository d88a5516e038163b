import { For, Show } from 'solid-js';
import type { BuildingDetail } from '../../analysis/session-types.ts';
import { FactList } from '../building/FactList.tsx';
import { factsOf, missingOf, placeDoubt, placeLine, tierSpan } from '../building/facts.ts';
import { Timeline } from '../building/Timeline.tsx';
import { CautionList } from '../parts/Cautions.tsx';
import { digits, noRecord, show } from '../parts/format.ts';
import { reasonIn } from '../parts/reason.ts';
import { TierMark } from '../parts/TierMark.tsx';
import { tierOf } from '../parts/tier-of.ts';
import { label } from '../parts/words.ts';
import { useDesk } from '../state/desk.ts';
import { DossierFindings } from './DossierFindings.tsx';
import { DossierWalls } from './DossierWalls.tsx';
import type { DossierData } from './dossier-data.ts';
import { OriginSheet } from './OriginSheet.tsx';
import { Mark, PaperMap } from './PaperMap.tsx';
import type { Picture } from './picture.ts';
import { shareWords } from './words.ts';

/** One building on paper: why it stands where it stands, and everything that is known and not known about it. */
export function Dossier(props: { readonly data: DossierData }) {
  const detail = () => props.data.detail;
  return (
    <article class="dossier">
      <Head data={props.data} />
      <div class="dossier-top">
        <div>
          <Reason detail={detail()} />
          <Figures data={props.data} />
        </div>
        <Locator data={props.data} />
      </div>
      <DossierWalls detail={detail()} wettingMax={props.data.wettingMax} />
      <Unknown detail={detail()} />
      <Timeline detail={detail()} />
      <OnRecord data={props.data} />
      <DossierFindings findings={props.data.findings} />
      <section class="paper-cautions">
        <h2>Cautions</h2>
        <CautionList />
      </section>
      <OriginSheet origin={props.data.origin} />
    </article>
  );
}

function Head(props: { readonly data: DossierData }) {
  const detail = () => props.data.detail;
  const row = () => detail().row;
  const rank = () =>
    row().rank === null
      ? 'not ranked'
      : `rank ${digits(Number(row().rank), 0)} of ${digits(props.data.ranked, 0)}`;
  return (
    <header class="dossier-head">
      <h1>{row().name ?? row().building_id}</h1>
      <p>{placeLine(detail())}</p>
      <Show when={placeDoubt(detail())}>{(doubt) => <p>{doubt()}</p>}</Show>
      <p class="standing">
        <TierMark tier={tierOf(row())} /> <b>{tierOf(row())}</b>
        <Show when={tierSpan(row())}>{(span) => <> ({span()})</>}</Show>, {rank()}
        <Show when={row().index !== null} fallback=", no index">
          , index <b>{show(row().index, 'index', 'metric')}</b> of 100, from{' '}
          {show(row().index_low, 'index', 'metric')} to {show(row().index_high, 'index', 'metric')}{' '}
          with what is not known
        </Show>
      </p>
    </header>
  );
}

function Reason(props: { readonly detail: BuildingDetail }) {
  const { state } = useDesk();
  return <p class="paper-reason">{reasonIn(props.detail.row, state.units)}</p>;
}

function Figures(props: { readonly data: DossierData }) {
  const { state } = useDesk();
  const row = () => props.data.detail.row;
  const of = (column: string) => show(row()[column], column, state.units, row().currency);
  const facts = () =>
    [
      ['Rain', `${of('rain_mm')}, from ${of('rain_low_mm')} to ${of('rain_high_mm')}`],
      ['Source of rain', `${of('rain_source')}, ${of('rain_period')}`],
      ['Flag on rain', row().rain_flag],
      [`Wetting of wall ${row().wall_id ?? noRecord}`, of('wetting_l_m2')],
      ['Drainage state', of('drainage_state')],
      ['Insured value', row().insured_value === null ? null : of('insured_value')],
    ] as const;
  return (
    <FactList
      class="paper-facts"
      facts={facts().flatMap(([label, value]) => (value ? [{ label, text: String(value) }] : []))}
    />
  );
}

function Locator(props: { readonly data: DossierData }) {
  const row = () => props.data.detail.row;
  const at = (picture: Picture) =>
    picture.frame.place(Number(row().longitude), Number(row().latitude));
  return (
    <figure class="dossier-map">
      <Show
        when={props.data.picture}
        fallback={<figcaption>No place on record: no map, no rain.</figcaption>}
      >
        {(picture) => (
          <>
            <PaperMap
              picture={picture()}
              label="Where the building stands, with the yearly rain around it"
            >
              <Show when={at(picture())}>
                {(place) => (
                  <>
                    <circle class="here" cx={place()[0]} cy={place()[1]} r="13" />
                    <Mark at={place()} tier={tierOf(row())} side={11} />
                  </>
                )}
              </Show>
            </PaperMap>
            <figcaption>
              Ringed; north is up. Yearly rain as read from the grid, before stations adjust it.
            </figcaption>
          </>
        )}
      </Show>
    </figure>
  );
}

/** What knowing the missing facts would settle, the most telling first. */
function Unknown(props: { readonly detail: BuildingDetail }) {
  const missing = () => missingOf(props.detail.row);
  return (
    <section class="unknown keep">
      <h2>Not on record, and what knowing it would settle</h2>
      <Show
        when={missing().length > 0}
        fallback={
          <p>
            {props.detail.row.index === null
              ? 'It is not scored, so no single fact would settle its place.'
              : 'Every fact that the index asks about is on record for the wall that sets it.'}
          </p>
        }
      >
        <table class="plain">
          <thead>
            <tr>
              <th scope="col">Not on record for wall {props.detail.row.wall_id ?? noRecord}</th>
              <th scope="col">To ask</th>
              <th scope="col">Share of the index’s spread it would take away (estimate)</th>
            </tr>
          </thead>
          <tbody>
            <For each={missing()}>
              {(one) => (
                <tr>
                  <th scope="row">{one.label}</th>
                  <td>{one.question}</td>
                  <td>
                    <svg class="share-bar" viewBox="0 0 100 8" aria-hidden="true">
                      <rect class="track" width="100" height="8" />
                      <rect class="bar" width={one.share * 100} height="8" />
                    </svg>{' '}
                    {shareWords(one.share)}
                  </td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </Show>
      <p>A blank is neither good nor bad: it widens the range from low to high.</p>
    </section>
  );
}

/** The building's record as it was read, the cells corrected in the page, and the user's own columns. */
function OnRecord(props: { readonly data: DossierData }) {
  const { state } = useDesk();
  const facts = () => factsOf(props.data.detail.record, state.units);
  return (
    <section class="on-record">
      <h2>
        The record as read: {props.data.file}, row {props.data.detail.record.row}
      </h2>
      <FactList class="paper-facts in-columns" facts={[...facts().onRecord, ...facts().own]} />
      <p>
        <b>No record:</b> {facts().missing.join(', ') || 'every column of the building is filled'}.
      </p>
      <Show when={props.data.edits.length > 0}>
        <p>
          <b>Corrected in the page, not in the file:</b>{' '}
          {props.data.edits
            .map(
              ({ file, row, column, value }) => `${file}, row ${row}: ${label(column)} “${value}”`,
            )
            .join('; ')}
          .
        </p>
      </Show>
    </section>
  );
}
