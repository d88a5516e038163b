import { createMemo, For, Show } from 'solid-js';
import type { ColumnMap, Guess, MappedColumn } from '../../analysis/mapping/column-map.ts';
import { unitsFor } from '../../analysis/mapping/units.ts';
import { contractColumns } from './headings.ts';
import { withFill, withUnit, withWall } from './map-edit.ts';
import { sureWord } from './sure-words.ts';

type Fills = MappedColumn['fills'];

const keyOf = (fills: Fills): string => (fills ? `${fills.table} ${fills.column}` : '');

function fillsOf(key: string): Fills {
  const [table, column] = key.split(' ');
  return column ? { table: table as 'building' | 'wall', column } : null;
}

const tables = [
  { table: 'building', title: 'of the building', role: 'buildings' },
  { table: 'wall', title: 'of the wall', role: 'walls' },
] as const;

const shown: Readonly<Record<ColumnMap['shape'], readonly string[]>> = {
  buildings: ['building'],
  walls: ['wall'],
  'wall rows': ['building', 'wall'],
  'wall columns': ['building', 'wall'],
};

/** One column of the file: what it is read as, in which unit, and how sure that is. */
export function ColumnRow(props: {
  readonly map: ColumnMap;
  readonly position: number;
  readonly examples: string;
  readonly guess: Guess | undefined;
  readonly onMap: (map: ColumnMap) => void;
}) {
  const column = () => props.map.columns[props.position]!;
  const name = () => column().heading || `column ${props.position + 1}`;
  const units = createMemo(() => {
    const { fills } = column();
    return fills ? unitsFor(fills.column) : [];
  });
  return (
    <tr classList={{ kept: column().fills === null }}>
      <th scope="row">{name()}</th>
      <td class="examples">{props.examples || 'blank'}</td>
      <td>
        <select
          aria-label={`${name()} is read as`}
          value={keyOf(column().fills)}
          onChange={(event) =>
            props.onMap(withFill(props.map, props.position, fillsOf(event.currentTarget.value)))
          }
        >
          <option value="">not used, kept as it is</option>
          <For each={tables.filter(({ table }) => shown[props.map.shape].includes(table))}>
            {(group) => (
              <optgroup label={group.title}>
                <For each={contractColumns(group.role)}>
                  {(one) => <option value={`${group.table} ${one}`}>{one}</option>}
                </For>
              </optgroup>
            )}
          </For>
        </select>
        <Show when={props.map.shape === 'wall columns' && column().fills?.table === 'wall'}>
          <label class="of-wall">
            of wall{' '}
            <input
              type="text"
              size={8}
              value={column().wall ?? ''}
              onChange={(event) =>
                props.onMap(withWall(props.map, props.position, event.currentTarget.value.trim()))
              }
            />
          </label>
        </Show>
      </td>
      <td>
        <Show when={units().length > 0} fallback={<span class="soft">–</span>}>
          <select
            aria-label={`Unit of ${name()}`}
            value={column().unit ?? units()[0]!.unit}
            onChange={(event) =>
              props.onMap(withUnit(props.map, props.position, event.currentTarget.value))
            }
          >
            <For each={units()}>{(unit) => <option value={unit.unit}>{unit.label}</option>}</For>
          </select>
        </Show>
      </td>
      <td class="sure">
        <Show when={props.guess} fallback={<span class="soft">set</span>}>
          {(guess) => (
            <>
              <Show when={column().fills}>{sureWord(guess().confidence)}, </Show>
              <span class="soft">{guess().why}</span>
            </>
          )}
        </Show>
      </td>
    </tr>
  );
}
