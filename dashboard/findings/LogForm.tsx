import { createSignal, Show } from 'solid-js';
import { quantities } from '../../analysis/units.ts';
import { useDesk } from '../state/desk.ts';
import { asksSheathing, type Draft, shownExtent, storedExtent, wantedOf } from './draft.ts';
import { ChoiceField, PhotoField, TextField, WordField } from './fields.tsx';
import type { Entry } from './register.ts';
import { WallPick } from './WallPick.tsx';

interface FormProps {
  readonly draft: Draft;
  readonly entries: readonly Entry[];
  readonly verb: string;
  readonly onDraft: (draft: Draft) => void;
  readonly onKeep: () => void;
}

/** One finding by the contract. What is wanted is said beside its field, once the reader tries to keep it. */
export function LogForm(props: FormProps) {
  const { state } = useDesk();
  const [tried, setTried] = createSignal(false);
  const put = (cells: Draft) => props.onDraft({ ...props.draft, ...cells });
  const troubleAt = (column: string) =>
    (tried() && wantedOf(props.draft).find((want) => want.column === column)?.says) || null;
  const submit = (event: SubmitEvent) => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const wanted = wantedOf(props.draft);
    setTried(wanted.length > 0);
    if (wanted.length === 0) return props.onKeep();
    // The field that wants something first is where the reader goes on.
    queueMicrotask(() => form.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus());
  };
  const field = (column: string) => ({
    column,
    draft: props.draft,
    trouble: troubleAt(column),
    onText: (text: string) => put({ [column]: text }),
  });
  return (
    <form class="log-form" onSubmit={submit} novalidate>
      <WallPick draft={props.draft} entries={props.entries} put={put} troubleAt={troubleAt} />
      <TextField {...field('observed_on')} type="date" words="Looked at on" />
      <WordField {...field('method')} word="method" words="How it was looked at" />
      <Show when={asksSheathing(props.draft)}>
        <ChoiceField
          {...field('sheathing_seen')}
          words="Was the sheathing itself seen?"
          options={['yes', 'no']}
        />
      </Show>
      <WordField
        {...field('condition')}
        word="condition"
        words={
          props.draft.sheathing_seen === 'yes' ? 'Condition of the sheathing' : 'Condition, as seen'
        }
      />
      <TextField {...field('moisture_pct')} type="number" words="Moisture reading, %" />
      <WordField {...field('reading_scale')} word="reading_scale" words="Scale of the meter" />
      <WordField {...field('location')} word="location" words="Where on the wall" />
      <TextField
        {...field('extent_m2')}
        draft={{
          ...props.draft,
          extent_m2: shownExtent(props.draft.extent_m2 ?? '', state.units),
        }}
        onText={(text) => put({ extent_m2: storedExtent(text, state.units) })}
        type="number"
        words={`Extent, ${quantities.area[state.units]}`}
      />
      <TextField {...field('observer')} type="text" words="Looked at by" />
      <PhotoField {...field('photo')} />
      <TextField {...field('note')} type="text" words="Note" />
      <label class="log-check">
        <input
          type="checkbox"
          checked={props.draft.not_accessible === 'yes'}
          onChange={(event) => put({ not_accessible: event.currentTarget.checked ? 'yes' : '' })}
        />
        The wall could not be reached
      </label>
      <p class="log-keep">
        <button type="submit" class="push-button" data-main>
          {props.verb}
        </button>
        <span class="soft">
          Nothing logged is ever lost: amended and struck findings stay here.
        </span>
      </p>
    </form>
  );
}
