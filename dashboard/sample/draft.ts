import { createEffect, createRoot, createSignal, on } from 'solid-js';
import type { SamplingPlan } from '../../analysis/sample/plan.ts';
import type { SelectionRequest } from '../../analysis/sample/request.ts';
import type { DrawnPlan } from '../../analysis/survey/draw.ts';
import type { Desk } from '../state/desk.ts';
import { dayOf, firstForm, type SampleForm } from './form.ts';

/** A sample drawn and not locked, and for what choices it was drawn. */
interface Draft {
  readonly drawn: DrawnPlan;
  readonly says: readonly string[];
  /** The choices that decide the units, as text: where they change, the draft no longer answers them. */
  readonly choices: string;
}

/** What is being prepared; it outlives a visit to the other views. */
export interface SampleDraft {
  readonly form: () => SampleForm;
  readonly change: (part: Partial<SampleForm>) => void;
  readonly draft: () => Draft | null;
  readonly setDraft: (draft: Draft | null) => void;
}

/** The name under which the form is kept in a workspace. */
const keptAs = 'sample form';

const drafts = new WeakMap<Desk['survey'], SampleDraft>();

/** The draft of this page: one for all visits, another for each workspace. */
export function sampleDraft(desk: Desk): SampleDraft {
  const known = drafts.get(desk.survey);
  if (known) return known;
  const made = createRoot(() => createSampleDraft(desk));
  drafts.set(desk.survey, made);
  return made;
}

function createSampleDraft({ keeping }: Desk): SampleDraft {
  const kept = (): SampleForm => ({
    ...firstForm(dayOf(new Date())),
    ...((keeping.more(keptAs) ?? {}) as Partial<SampleForm>),
  });
  const [form, setForm] = createSignal(kept());
  const [draft, setDraft] = createSignal<Draft | null>(null);
  createEffect(
    on(
      () => keeping.current()?.workspace.id,
      () => {
        setForm(kept());
        setDraft(null);
      },
      { defer: true },
    ),
  );
  return {
    form,
    change: (part) => {
      const { chosenOn, frameDate, ...lasting } = setForm({ ...form(), ...part });
      // Dates are those of the day on which a plan is made: tomorrow's form starts from tomorrow.
      keeping.keepMore(keptAs, lasting);
    },
    draft,
    setDraft,
  };
}

/** The choices that decide the units of a draw, as text. */
export const choicesOf = (version: number, population: string, request: SelectionRequest): string =>
  JSON.stringify([version, population, request]);

/** What the user says of a plan besides its units; it can be changed until the plan is locked. */
export const withHead = (
  plan: SamplingPlan,
  head: Partial<SamplingPlan['head']>,
): SamplingPlan => ({ ...plan, head: { ...plan.head, ...head } });
