import { For, Show } from 'solid-js';
import type { Preview } from '../../analysis/session-types.ts';
import { label, plainWord } from '../parts/words.ts';

type Row = Readonly<Record<string, number | string | null>>;

/** The first rows as the method will see them, before anything is committed. */
export function FirstRows(props: { readonly preview: Preview }) {
  return (
    <>
      <Rows title="First buildings as they will be read" rows={props.preview.rows.building} />
      <Rows title="First walls as they will be read" rows={props.preview.rows.wall} />
    </>
  );
}

function Rows(props: { readonly title: string; readonly rows: readonly Row[] }) {
  const columns = () =>
    Object.keys(props.rows[0] ?? {}).filter(
      (name) => !ofOurs.has(name) && props.rows.some((row) => row[name] !== null),
    );
  return (
    <Show when={props.rows.length > 0}>
      <h4>{props.title}</h4>
      <section class="column-scroll" tabindex={0} aria-label={props.title}>
        <table class="first-rows">
          <thead>
            <tr>
              <For each={columns()}>{(name) => <th scope="col">{label(name)}</th>}</For>
            </tr>
          </thead>
          <tbody>
            <For each={props.rows}>
              {(row) => (
                <tr>
                  <For each={columns()}>{(name) => <td>{shown(row[name] ?? null)}</td>}</For>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </section>
    </Show>
  );
}

/** Columns that the reader adds for the method. */
const ofOurs = new Set('row country region_code marine_possible place_km wall_id_made'.split(' '));

/** Eight figures: enough to see that a unit was understood. */
function shown(value: number | string | null): string {
  if (value === null) return '–';
  return typeof value === 'number' ? String(Number(value.toPrecision(8))) : plainWord(value);
}
