import { createMemo, For, Show } from 'solid-js';
import { type ColumnMap, type SheetShape, sheetShapes } from '../../analysis/mapping/column-map.ts';
import type { Preview, SheetReading } from '../../analysis/session-types.ts';
import { ColumnRow } from './ColumnRow.tsx';
import { FirstRows } from './FirstRows.tsx';
import { withShape } from './map-edit.ts';
import { UnmatchedWords } from './UnmatchedWords.tsx';
import './column-sheet.css';

const shapeWords: Readonly<Record<SheetShape, string>> = {
  buildings: 'one row a building',
  walls: 'one row a wall',
  'wall rows': 'one row a wall, with the columns of its building',
  'wall columns': 'one row a building, with columns for its walls',
};

/** How the columns of a table are read: guessed, and changed by hand. Nothing is read until the user says so. */
export function ColumnSheet(props: {
  readonly preview: Preview;
  readonly reading: SheetReading;
  readonly onReading: (reading: SheetReading) => void;
}) {
  // What was changed last, whether or not it has been looked at: the next change adds to it.
  const map = () => props.reading.map ?? props.preview.guessed.map;
  const change = (next: ColumnMap) => props.onReading({ ...props.reading, map: next });
  const examples = createMemo(() => firstValues(props.preview));
  return (
    <div class="column-sheet">
      <div class="column-sheet-head">
        <Show when={props.preview.sheets.length > 1}>
          <label>
            Sheet{' '}
            <select
              value={props.reading.sheet ?? props.preview.sheets[0]}
              onChange={(event) => props.onReading({ sheet: event.currentTarget.value })}
            >
              <For each={props.preview.sheets}>{(sheet) => <option>{sheet}</option>}</For>
            </select>
          </label>
        </Show>
        <label>
          It holds{' '}
          <select
            value={map().shape}
            onChange={(event) => change(withShape(map(), event.currentTarget.value as SheetShape))}
          >
            <For each={sheetShapes}>
              {(shape) => <option value={shape}>{shapeWords[shape]}</option>}
            </For>
          </select>
        </label>
        <span class="soft">{fromWords[props.preview.from]}</span>
        <Show when={props.preview.from === 'given'}>
          <button
            type="button"
            class="plain-button"
            onClick={() => props.onReading(withoutMap(props.reading))}
          >
            Guess again
          </button>
        </Show>
      </div>
      <section class="column-scroll" tabindex={0} aria-label="Columns of the file">
        <table class="column-table">
          <thead>
            <tr>
              <th scope="col">Column of the file</th>
              <th scope="col">First values</th>
              <th scope="col">Is read as</th>
              <th scope="col">Unit</th>
              <th scope="col">How sure</th>
            </tr>
          </thead>
          <tbody>
            <For each={map().columns}>
              {(_, i) => (
                <ColumnRow
                  map={map()}
                  position={i()}
                  examples={examples()[i()] ?? ''}
                  guess={
                    props.preview.from === 'guessed'
                      ? props.preview.guessed.guesses[i()]
                      : undefined
                  }
                  onMap={change}
                />
              )}
            </For>
          </tbody>
        </table>
      </section>
      <UnmatchedWords unmatched={props.preview.guessed.unmatched} map={map()} onMap={change} />
      <FirstRows preview={props.preview} />
    </div>
  );
}

const fromWords = {
  given: 'As you have set it.',
  kept: 'As an earlier file with the same headings was read.',
  guessed: 'Guessed from headings and values.',
} as const;

const withoutMap = ({ map: _, ...rest }: SheetReading): SheetReading => rest;

const shownExamples = 3;

/** A few different values of each column, to know it by. */
function firstValues({ sample }: Preview): string[] {
  return sample.headings.map((_, i) => {
    const values = new Set(sample.rows.map((row) => row[i] ?? '').filter((value) => value !== ''));
    return [...values].slice(0, shownExamples).join(' · ');
  });
}
