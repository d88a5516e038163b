import { createMemo, createResource, createSignal, Show } from 'solid-js';
import { CautionLine } from '../parts/Cautions.tsx';
import { useDesk } from '../state/desk.ts';
import { queryOf } from '../state/page-state.ts';
import { sampleDraft } from './draft.ts';
import { exclusionLines } from './id-lines.ts';
import { LockedPlans } from './LockedPlans.tsx';
import { Plan } from './Plan.tsx';
import { Population } from './Population.tsx';
import { type Printed, Printout } from './Printout.tsx';
import { Selection } from './Selection.tsx';
import { Size } from './Size.tsx';
import { sizeAnswer } from './size-answer.ts';
import './sample.css';

/** From a population of walls to a plan of which to open: population, size, selection, plan. */
export function Sample() {
  const desk = useDesk();
  const { form, change } = sampleDraft(desk);
  const [printed, setPrinted] = createSignal<Printed | null>(null);
  const asked = createMemo(
    () => ({
      version: desk.session.opened()?.version ?? 0,
      // The order of the ranking is no part of a population.
      population: {
        query: queryOf({ by: 'index', sort: null, filters: desk.state.filters }),
        unit: form().unit,
      },
      fields: form().strata,
    }),
    undefined,
    { equals: (a, b) => JSON.stringify(a) === JSON.stringify(b) },
  );
  const [strata] = createResource(
    () => asked().version > 0 && asked(),
    ({ population, fields }) => desk.session.analyst.strata(population, fields),
  );
  const view = () => (strata.state === 'errored' ? undefined : strata.latest);
  const excluded = () => new Set(exclusionLines(form().exclusions).read.map(({ id }) => id)).size;
  const frameUnits = () => Math.max(0, (view()?.units ?? 0) - excluded());
  const answer = createMemo(() => sizeAnswer(form(), frameUnits(), form().unit));
  return (
    <section class="sheet-of-text sample" aria-label="Sample" data-printing={printed() !== null}>
      <h2>Sample</h2>
      <p class="lead">
        Which walls to open, how many, and what the openings can say of all the others. A plan is
        drawn by a seed, locked by its digest before fieldwork, and bears the estimate under
        Findings.
      </p>
      <CautionLine />
      <Show
        when={desk.session.opened()}
        fallback={<p class="panel-state">The buildings are being read …</p>}
      >
        <Population form={form()} onForm={change} strata={strata} />
        <Size form={form()} onForm={change} population={frameUnits()} answer={answer()} />
        <Selection form={form()} onForm={change} strata={view()?.rows ?? []} />
        <Plan
          asked={asked()}
          rows={view()?.rows ?? []}
          answer={answer()}
          ready={strata.state === 'ready'}
          onPrint={setPrinted}
        />
        <LockedPlans onPrint={setPrinted} />
      </Show>
      <Show when={printed()}>
        {(one) => <Printout printed={one()} onDone={() => setPrinted(null)} />}
      </Show>
    </section>
  );
}
