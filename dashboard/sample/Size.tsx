import { createMemo, Show } from 'solid-js';
import type { Outcome } from '../../analysis/sample/types.ts';
import { Choice } from '../parts/Choice.tsx';
import { counted } from '../parts/format.ts';
import { TermLine } from '../parts/TermLine.tsx';
import { Curve } from './Curve.tsx';
import { Field } from './Field.tsx';
import { numberOf, type SampleForm } from './form.ts';
import { Says } from './Says.tsx';
import { budgetAnswer, costsOf, costWords, type SizeAnswer } from './size-answer.ts';

const aims = [
  { value: 'proportion', word: 'estimate a share' },
  { value: 'discovery', word: 'see at least one' },
] as const;

interface SizeProps {
  readonly form: SampleForm;
  readonly onForm: (part: Partial<SampleForm>) => void;
  /** Units of the frame: the population less those excluded. */
  readonly population: number;
  readonly answer: Outcome<SizeAnswer>;
}

/** Step 2: how many openings, by what they buy and by what they cost. */
export function Size(props: SizeProps) {
  const budget = createMemo(() => budgetAnswer(props.form, props.population));
  const budgetN = () => {
    const found = budget();
    return found?.ok ? found.n : null;
  };
  return (
    <section aria-label="Size">
      <h3>Size</h3>
      <TermLine of={['opening', 'margin', 'confidence']} />
      <Choice
        legend="To"
        words={aims}
        value={props.form.aim}
        onChoose={(aim) => props.onForm({ aim })}
      />
      <div class="sample-columns">
        <div>
          <AimFields {...props} />
          <Show
            when={props.answer.ok && props.answer}
            fallback={<Says says={props.answer.says} tone="alarm" />}
          >
            {(answer) => (
              <p class="size-answer" aria-live="polite">
                <b>{answer().words}</b>{' '}
                <button
                  type="button"
                  class="push-button"
                  onClick={() => props.onForm({ openings: String(answer().n) })}
                >
                  Take {counted(answer().n, 'opening')}
                </button>
              </p>
            )}
          </Show>
          <p class="soft">
            For simple random selection among {counted(props.population, props.form.unit)}. Strata,
            unequal chances and several walls of one building change what a number buys: the
            estimate states by how much.
          </p>
          <CostFields {...props} />
          <Show when={budget()}>
            {(found) => {
              const bought = () => {
                const answer = found();
                return answer.ok ? [answer.words] : answer.says;
              };
              return <Says says={bought()} />;
            }}
          </Show>
        </div>
        <Show when={props.answer.ok && props.answer}>
          {(answer) => (
            <Curve
              form={props.form}
              population={props.population}
              answer={answer()}
              budget={budgetN()}
            />
          )}
        </Show>
      </div>
    </section>
  );
}

function AimFields(props: SizeProps) {
  const field = (key: 'margin' | 'confidence' | 'share' | 'catchShare' | 'detection') => ({
    value: props.form[key],
    onValue: (value: string) => props.onForm({ [key]: value }),
  });
  return (
    <Show
      when={props.form.aim === 'proportion'}
      fallback={
        <>
          <Field label="If this share or more is decayed" unit="%" {...field('catchShare')} />
          <Field label="Confidence" unit="%" {...field('confidence')} />
          <Field label="Chance that an opening sees it" unit="0–1" {...field('detection')} />
        </>
      }
    >
      <Field label="Margin, ±" unit="points" {...field('margin')} />
      <Field label="Confidence" unit="%" {...field('confidence')} />
      <Field label="Expected share" unit="%" {...field('share')} />
    </Show>
  );
}

/** The user's own costs: empty until filled. */
function CostFields(props: SizeProps) {
  const currency = () => props.form.currency.trim() || 'currency';
  const field = (key: 'opening' | 'repair' | 'access' | 'budget' | 'currency') => ({
    value: props.form[key],
    onValue: (value: string) => props.onForm({ [key]: value }),
  });
  const costs = createMemo(() => costsOf(props.form));
  const openings = () => numberOf(props.form.openings);
  return (
    <details class="sample-costs">
      <summary>Costs and budget, your own figures</summary>
      <Field label="Currency" type="text" {...field('currency')} />
      <Field label="One opening" unit={currency()} {...field('opening')} />
      <Field label="Repair after one opening" unit={currency()} {...field('repair')} />
      <Field label="Access, once" unit={currency()} {...field('access')} />
      <Field label="Budget" unit={currency()} {...field('budget')} />
      <Show when={openings() > 0 && costs()}>
        {(known) => <p>{costWords(openings(), known(), props.form.currency)}</p>}
      </Show>
    </details>
  );
}
