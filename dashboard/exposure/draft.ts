import { createEffect, createRoot, createSignal, on } from 'solid-js';
import type { Desk } from '../state/desk.ts';
import { type ExposureForm, firstForm } from './form.ts';

interface ExposureDraft {
  readonly form: () => ExposureForm;
  readonly change: (part: Partial<ExposureForm>) => void;
}

/** The name under which the form is kept in a workspace. */
const keptAs = 'exposure form';

const drafts = new WeakMap<Desk['keeping'], ExposureDraft>();

/** The choices of this page: one for all visits, others for each workspace. */
export function exposureDraft(desk: Desk): ExposureDraft {
  const known = drafts.get(desk.keeping);
  if (known) return known;
  const made = createRoot(() => createDraft(desk));
  drafts.set(desk.keeping, made);
  return made;
}

function createDraft({ keeping }: Desk): ExposureDraft {
  const kept = (): ExposureForm => ({
    ...firstForm,
    ...((keeping.more(keptAs) ?? {}) as Partial<ExposureForm>),
  });
  const [form, setForm] = createSignal(kept());
  createEffect(
    on(
      () => keeping.current()?.workspace.id,
      () => setForm(kept()),
      { defer: true },
    ),
  );
  return {
    form,
    change: (part) => keeping.keepMore(keptAs, setForm({ ...form(), ...part })),
  };
}
