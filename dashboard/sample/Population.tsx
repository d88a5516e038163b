import { For, type Resource, Show } from 'solid-js';
import type { StrataView } from '../../analysis/survey/draw.ts';
import { Answer } from '../parts/Answer.tsx';
import { Choice } from '../parts/Choice.tsx';
import { counted } from '../parts/format.ts';
import { TermLine } from '../parts/TermLine.tsx';
import { plainWord } from '../parts/words.ts';
import { useDesk } from '../state/desk.ts';
import { viewFragment } from '../state/fragment.ts';
import { type SampleForm, toggled } from './form.ts';
import { StrataTable } from './StrataTable.tsx';
import { fieldWords, populationWords, unitMeaning, unitWords } from './words.ts';

/** Step 1: what may be drawn, and how it is divided. */
export function Population(props: {
  readonly form: SampleForm;
  readonly onForm: (part: Partial<SampleForm>) => void;
  readonly strata: Resource<StrataView>;
}) {
  const { state } = useDesk();
  return (
    <section aria-label="Population">
      <h3>Population</h3>
      <TermLine of={['population', 'stratum']} />
      <Choice
        legend="Unit"
        words={unitWords}
        value={props.form.unit}
        onChoose={(unit) => props.onForm({ unit })}
      />
      <p class="soft">{unitMeaning[props.form.unit]}</p>
      <p>
        {populationWords(props.form.unit, state.filters, state.units)}:{' '}
        <a href={viewFragment(state, 'Rank')}>change the filter in Rank</a>.{' '}
        <span class="soft">What was not scored is no part of it.</span>
      </p>
      <fieldset class="strata-fields">
        <legend>Strata by</legend>
        <For each={fieldWords}>
          {({ field, word }) => (
            <label>
              <input
                type="checkbox"
                checked={props.form.strata.includes(field)}
                onChange={() => props.onForm({ strata: toggled(props.form.strata, field) })}
              />
              {word}
              <Show when={props.form.strata.length > 1 && props.form.strata.includes(field)}>
                {' '}
                <span class="soft">{props.form.strata.indexOf(field) + 1}</span>
              </Show>
            </label>
          )}
        </For>
      </fieldset>
      <Answer of={props.strata} wait="Counting …" trouble="The population could not be counted:">
        {(view) => <Counted view={view()} unit={props.form.unit} />}
      </Answer>
    </section>
  );
}

function Counted(props: { readonly view: StrataView; readonly unit: SampleForm['unit'] }) {
  const buildings = () => counted(props.view.buildings, 'building');
  return (
    <>
      <p role="status">
        <b>
          {props.unit === 'wall'
            ? `${counted(props.view.units, 'wall')} of ${buildings()}`
            : buildings()}
        </b>
        {props.view.units === 0 ? ': there is nothing to draw from. Widen the filter in Rank.' : ''}
      </p>
      <Show when={props.view.units > 0}>
        <StrataTable rows={props.view.rows} unit={props.unit} caption="Strata of the population" />
        <For each={props.view.merged}>
          {(names) => (
            <p>
              Taken as one stratum, for at least one of them has a single {props.unit}:{' '}
              {names.map(plainWord).join('; ')}.
            </p>
          )}
        </For>
      </Show>
    </>
  );
}
