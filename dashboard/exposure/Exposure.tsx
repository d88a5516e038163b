import { createMemo, createResource, Show } from 'solid-js';
import { Answer } from '../parts/Answer.tsx';
import { CautionLine } from '../parts/Cautions.tsx';
import { useDesk } from '../state/desk.ts';
import { queryOf } from '../state/page-state.ts';
import { Clusters } from './Clusters.tsx';
import { exposureDraft } from './draft.ts';
import { Files } from './Files.tsx';
import { requestOf } from './form.ts';
import { Head } from './Head.tsx';
import { Pivot } from './Pivot.tsx';
import { Referral } from './Referral.tsx';
import { Threshold } from './Threshold.tsx';
import './exposure.css';
import './figures.css';

/** Where walls and insured values lie: for who answers for the whole of a schedule. */
export function Exposure() {
  const desk = useDesk();
  const { form, change } = exposureDraft(desk);
  const asked = createMemo(
    () => ({
      version: desk.session.opened()?.version ?? 0,
      // The order of the ranking is no part of a total.
      query: queryOf({ by: 'index', sort: null, filters: desk.state.filters }),
      request: requestOf(form()),
    }),
    undefined,
    { equals: (a, b) => JSON.stringify(a) === JSON.stringify(b) },
  );
  const [view] = createResource(
    () => asked().version > 0 && asked(),
    ({ query, request }) => desk.session.analyst.exposure(query, request),
  );
  return (
    <section class="sheet-of-text exposure" aria-label="Exposure" aria-busy={view.loading}>
      <h2>Exposure</h2>
      <p class="lead">
        How many buildings, how much wall and how much insured value stand in each tier, and where
        they lie together. A value in a tier is value at a place, not a loss.
      </p>
      <CautionLine />
      <Show
        when={desk.session.opened()}
        fallback={<p class="panel-state">The buildings are being read …</p>}
      >
        <Answer of={view} wait="Adding up …" trouble="Exposure could not be added up:">
          {(found) => (
            <>
              <Head view={found()} form={form()} onForm={change} />
              <Show when={found().lines > 0}>
                <Pivot view={found()} form={form()} onForm={change} />
                <Threshold view={found()} form={form()} onForm={change} />
                <Clusters view={found()} form={form()} onForm={change} />
                <Referral view={found()} form={form()} onForm={change} />
                <Files asked={asked()} view={found()} />
              </Show>
            </>
          )}
        </Answer>
      </Show>
    </section>
  );
}
