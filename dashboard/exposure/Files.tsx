import { Show } from 'solid-js';
import type { Dimension, ExposureRequest, ExposureView } from '../../analysis/exposure/types.ts';
import type { RankQuery } from '../../analysis/session-types.ts';
import { createSaving } from '../parts/create-saving.ts';
import { save } from '../parts/save.ts';
import { filterWords } from '../rank/filter-sentence.ts';
import { inputDigests } from '../sample/input-digests.ts';
import { useDesk } from '../state/desk.ts';
import type { RankRow } from '../state/rows.ts';
import { exposureAbout } from './about-file.ts';
import { pivotCsv } from './pivot-file.ts';
import { referralCsv } from './referral-file.ts';
import { criteriaWords } from './referral-words.ts';

interface Asked {
  readonly query: RankQuery;
  readonly request: ExposureRequest;
}

/** Everything that the insurer's question divides by, in one file. */
const wholeCrossing: readonly Dimension[] = ['tier', 'region', 'height', 'era'];
/** Rows of the ranking fetched at once. */
const rowsAtOnce = 2000;

/** The pivot, the full crossing and the referral list as files, each with its *about* file. */
export function Files(props: { readonly asked: Asked; readonly view: ExposureView }) {
  const { session, state } = useDesk();
  const { busy, failed, run } = createSaving();
  const told = () => ({ filter: filterWords(state.filters, state.units), units: state.units });

  const saveWith = async (name: string, csv: string, about: string) => {
    const opened = session.opened();
    if (!opened) return;
    const digests = await inputDigests(opened.inputs);
    const made = { ...told(), view: props.view, report: opened.report, digests, about };
    save(`${name}.csv`, csv, 'text/csv');
    save(
      `${name}.csv.about.json`,
      exposureAbout({ ...made, settings: session.changes() }),
      'application/json',
    );
  };
  const shownDimensions = () => [...props.asked.request.rows, ...props.asked.request.columns];
  const pivot = async (name: string, crossing: readonly Dimension[]) => {
    const { query, request } = props.asked;
    const view = await session.analyst.exposure(query, { ...request, crossing });
    const by = view.crossing!.dimensions.join(' × ');
    await saveWith(name, pivotCsv(view.crossing!, view.words, told()), `Exposure by ${by}.`);
  };
  const referral = async () => {
    const { ordinals } = props.view.referral;
    const rows: RankRow[] = [];
    for (let from = 0; from < ordinals.length; from += rowsAtOnce) {
      rows.push(...(await session.analyst.rows(ordinals.slice(from, from + rowsAtOnce))));
    }
    const asked = props.asked.request.referral;
    const criteria = criteriaWords(asked, props.view.currency);
    const own = await session.analyst.own(ordinals);
    const csv = referralCsv(props.view.referral, rows, own, asked, told());
    await saveWith(
      'referral',
      csv,
      `Referral list: ${criteria}. The totals are of all lines, listed or not.`,
    );
  };
  return (
    <section aria-label="Files">
      <h3>Files</h3>
      <p class="exposure-files" aria-busy={busy()}>
        <button
          type="button"
          class="push-button"
          disabled={busy()}
          onClick={() => run(() => pivot('exposure', shownDimensions()))}
        >
          This table
        </button>
        <button
          type="button"
          class="push-button"
          disabled={busy()}
          onClick={() => run(() => pivot('exposure-tier-region-height-era', wholeCrossing))}
        >
          Tier × region × height × era
        </button>
        <button
          type="button"
          class="push-button"
          disabled={busy() || props.view.referral.ordinals.length === 0}
          onClick={() => run(referral)}
        >
          Referral list
        </button>
      </p>
      <p class="soft">
        CSV without rows of totals, so that rows add up; each with an about file that has the
        filter, the totals, the cautions and the digests of what was read.
      </p>
      <Show when={failed()}>
        {(message) => <p role="alert">The file could not be written: {message()}</p>}
      </Show>
    </section>
  );
}
