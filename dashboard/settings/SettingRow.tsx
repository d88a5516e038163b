import { createUniqueId, Match, Show, Switch } from 'solid-js';
import type { ReferenceRow } from '../../analysis/reference.ts';
import { defaultSettings } from '../../analysis/settings.ts';
import { FieldTrouble } from './FieldTrouble.tsx';
import { NumberField } from './NumberField.tsx';

const yesOrNo = '0 or 1';

/** One constant: its meaning, its value, what ships, and where that comes from. */
export function SettingRow(props: {
  readonly row: ReferenceRow;
  /** Undefined where it is as shipped. */
  readonly value: unknown;
  readonly trouble: string | null;
  readonly onValue: (value: number) => void;
}) {
  const id = createUniqueId();
  const shipped = () => defaultSettings.constants[props.row.name ?? ''] ?? 0;
  const changed = () => props.value !== undefined;
  const value = () => (props.value ?? shipped()) as number;
  const words = (of: number) =>
    props.row.unit === yesOrNo ? (of === 1 ? 'yes' : 'no') : String(of);
  return (
    <div class="setting" data-changed={changed() || undefined}>
      <label>
        <span>{props.row.meaning}</span>
        <Switch>
          <Match when={props.row.unit === yesOrNo}>
            <input
              type="checkbox"
              checked={value() === 1}
              onChange={(event) => props.onValue(event.currentTarget.checked ? 1 : 0)}
            />
          </Match>
          <Match when={true}>
            <NumberField
              step="any"
              value={value()}
              troubled={props.trouble === null ? null : id}
              onValue={props.onValue}
            />
          </Match>
        </Switch>
        <span class="soft">
          {['1', yesOrNo].includes(props.row.unit ?? '') ? '' : props.row.unit}
        </span>
      </label>
      <p class="soft">
        ships as {words(shipped())}; {props.row.source}
        <Show when={changed()}>
          {' '}
          <button type="button" class="plain-button" onClick={() => props.onValue(shipped())}>
            back to {words(shipped())}
          </button>
        </Show>
      </p>
      <FieldTrouble id={id} message={props.trouble} />
    </div>
  );
}
