import { For, Show } from 'solid-js';
import type { StratumRow } from '../../analysis/sample/types.ts';
import { Choice } from '../parts/Choice.tsx';
import { TermLine } from '../parts/TermLine.tsx';
import { useDesk } from '../state/desk.ts';
import { Allocation } from './Allocation.tsx';
import { keptDistance, shownDistance } from './distance.ts';
import { Field, LinesField } from './Field.tsx';
import type { SampleForm } from './form.ts';
import { designWords } from './words.ts';

const chanceWords = [
  { value: 'equal', word: 'equal' },
  { value: 'by size', word: 'by wetting × area' },
] as const;

interface SelectionProps {
  readonly form: SampleForm;
  readonly onForm: (part: Partial<SampleForm>) => void;
  readonly strata: readonly StratumRow[];
}

/** Step 3: how the units are drawn. */
export function Selection(props: SelectionProps) {
  return (
    <section aria-label="Selection">
      <h3>Selection</h3>
      <TermLine of={['stratum', 'seed', 'replacement']} />
      <fieldset class="designs">
        <legend>Design</legend>
        <For each={designWords}>
          {({ design, word, use }) => (
            <label>
              <input
                type="radio"
                name="sample-design"
                checked={props.form.design === design}
                onChange={() => props.onForm({ design })}
              />
              <span>
                <b>{word}</b>: {use}
              </span>
            </label>
          )}
        </For>
      </fieldset>
      <div class="sample-columns">
        <div>
          <Numbers {...props} />
        </div>
        <div>
          <Units {...props} />
        </div>
      </div>
    </section>
  );
}

function Numbers(props: SelectionProps) {
  const { state } = useDesk();
  const field = (key: 'openings' | 'seed' | 'replicates' | 'replacements') => ({
    value: props.form[key],
    onValue: (value: string) => props.onForm({ [key]: value }),
  });
  const divides = () => ['stratified', 'pps', 'balanced'].includes(props.form.design);
  const byHand = () => props.form.allocation === 'by hand' && divides() && props.strata.length > 1;
  return (
    <>
      <Show when={!byHand()}>
        <Field label="Openings" {...field('openings')} />
      </Show>
      <Field label="Seed" unit="from 0" {...field('seed')} />
      <Show when={props.form.design === 'replicated'}>
        <Field label="Independent draws" unit="4 or more" {...field('replicates')} />
      </Show>
      <Field label="Replacements in each stratum" {...field('replacements')} />
      <Show when={props.form.design === 'simple' || props.form.design === 'stratified'}>
        <Field
          label="Minimum distance"
          unit={state.units === 'metric' ? 'km' : 'mi'}
          value={shownDistance(props.form.distanceKm, state.units)}
          onValue={(typed) => props.onForm({ distanceKm: keptDistance(typed, state.units) })}
        />
        <Show when={Number(props.form.distanceKm) > 0}>
          <p>
            <b>Not a probability sample</b> with a minimum distance: what is found will not bear an
            estimate for the population. Balanced selection spreads the units and keeps their
            chances.
          </p>
        </Show>
      </Show>
      <Show when={props.form.design === 'balanced'}>
        <Choice
          legend="Chances"
          words={chanceWords}
          value={props.form.chances}
          onChoose={(chances) => props.onForm({ chances })}
        />
        <label class="sample-check">
          <input
            type="checkbox"
            checked={props.form.withAzimuth}
            onChange={(event) => props.onForm({ withAzimuth: event.currentTarget.checked })}
          />
          spread over the directions the walls face as well
        </label>
      </Show>
      <Show when={divides()}>
        <Show
          when={props.form.strata.length > 0}
          fallback={<p class="soft">No strata were chosen under Population: the frame is one.</p>}
        >
          <Allocation {...props} />
        </Show>
      </Show>
    </>
  );
}

function Units(props: SelectionProps) {
  const example = () => (props.form.unit === 'wall' ? 'B-12 / north' : 'B-12');
  return (
    <>
      <LinesField
        label="Exclusions"
        hint={`one a line: ${example()}; reason. They leave the frame, and the sample says nothing about them.`}
        value={props.form.exclusions}
        onValue={(exclusions) => props.onForm({ exclusions })}
      />
      <LinesField
        label="To be included whatever the draw"
        hint={`one a line: ${example()}. A stratum of its own, with chance 1.`}
        value={props.form.mustInclude}
        onValue={(mustInclude) => props.onForm({ mustInclude })}
      />
    </>
  );
}
