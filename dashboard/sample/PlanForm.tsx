import { Field, LinesField } from './Field.tsx';
import type { SampleForm } from './form.ts';

/** Step 4: what a plan says of itself. It can be changed until the plan is locked. */
export function PlanForm(props: {
  readonly form: SampleForm;
  readonly onForm: (part: Partial<SampleForm>) => void;
  readonly planId: string;
  readonly sizeReason: string;
}) {
  const field = (key: 'chosenBy' | 'chosenOn' | 'frameDate') => ({
    value: props.form[key],
    onValue: (value: string) => props.onForm({ [key]: value }),
  });
  return (
    <div class="sample-columns">
      <div>
        <Field
          label="Title of the plan"
          type="text"
          wide
          value={props.planId}
          onValue={(text) => props.onForm({ planId: text === '' ? null : text })}
        />
        <Field label="Chosen by" type="text" wide {...field('chosenBy')} />
        <Field label="Chosen on" type="date" wide {...field('chosenOn')} />
        <Field label="Frame as of" type="date" wide {...field('frameDate')} />
        <p class="soft">Findings name the plan by its title, in their column plan_id.</p>
      </div>
      <div>
        <LinesField
          label="Reason for the number of openings"
          hint="said from the aim until you write your own"
          rows={5}
          value={props.sizeReason}
          onValue={(text) => props.onForm({ sizeReason: text.trim() === '' ? null : text })}
        />
      </div>
    </div>
  );
}
