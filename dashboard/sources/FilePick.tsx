import { createSignal, For, Show } from 'solid-js';
import type { Role } from '../../analysis/session-types.ts';
import { digits } from '../parts/format.ts';
import { type Picked, place } from './guess-role.ts';

const slots: readonly { role: Role; title: string; need: string; meaning: string }[] = [
  {
    role: 'buildings',
    title: 'Buildings',
    need: 'needed',
    meaning: 'One row a building: where it stands, and what is known of it.',
  },
  {
    role: 'walls',
    title: 'Walls',
    need: 'may be left out',
    meaning: 'One row a cladding record. Without it every wall is unknown.',
  },
  {
    role: 'rain',
    title: 'Rain grid',
    need: 'may be left out',
    meaning:
      'CSV of longitude, latitude, value in mm a year. Without it the built-in grid is used.',
  },
  {
    role: 'stations',
    title: 'Rain stations',
    need: 'may be left out',
    meaning:
      'CSV of latitude, longitude, annual normal with its unit. Without it 70 US cities adjust the built-in grid.',
  },
  {
    role: 'weather',
    title: 'Weather record',
    need: 'may be left out',
    meaning:
      'Hourly CSV of time, rain, wind speed and direction. Without it every direction counts alike.',
  },
];

/** A place for each file: pick one by one, or drop them all at once. */
export function FilePick(props: {
  readonly picked: Picked;
  readonly onPick: (picked: Picked) => void;
}) {
  const [over, setOver] = createSignal(false);
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    props.onPick(place(props.picked, [...(event.dataTransfer?.files ?? [])]));
  };
  const drag = (event: DragEvent) => {
    event.preventDefault();
    setOver(true);
  };
  return (
    <fieldset
      class="file-pick"
      classList={{ over: over() }}
      onDragOver={drag}
      onDragLeave={() => setOver(false)}
      onDrop={drop}
    >
      <legend>Drop CSV files here, or choose them one by one</legend>
      <For each={slots}>
        {(slot) => (
          <Slot
            {...slot}
            file={props.picked[slot.role]}
            onFile={(file) => props.onPick({ ...props.picked, [slot.role]: file })}
          />
        )}
      </For>
    </fieldset>
  );
}

function Slot(props: {
  readonly role: Role;
  readonly title: string;
  readonly need: string;
  readonly meaning: string;
  readonly file: File | null;
  readonly onFile: (file: File | null) => void;
}) {
  let input: HTMLInputElement | undefined;
  const clear = () => {
    if (input) input.value = '';
    props.onFile(null);
  };
  return (
    <div class="slot">
      <label>
        <b>{props.title}</b> <span class="soft">{props.need}</span>
        <input
          type="file"
          accept=".csv,.tsv,.txt,text/csv"
          ref={input}
          onChange={(event) => props.onFile(event.currentTarget.files?.[0] ?? null)}
        />
      </label>
      <Show when={props.file} fallback={<p class="soft">{props.meaning}</p>}>
        {(file) => (
          <p>
            {file().name}, {digits(Math.ceil(file().size / 1024), 0)}&nbsp;kB{' '}
            <button type="button" class="plain-button" onClick={clear}>
              take away
            </button>
          </p>
        )}
      </Show>
    </div>
  );
}
