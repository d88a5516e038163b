import type { JSX } from 'solid-js';

/** A labelled input on one line: its name, what is typed, its unit. */
export function Field(props: {
  readonly label: string;
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly type?: 'number' | 'text' | 'date';
  readonly unit?: string;
  readonly wide?: boolean;
}) {
  return (
    <label class="sample-field" data-wide={props.wide || undefined}>
      <span>{props.label}</span>
      <input
        type={props.type ?? 'number'}
        step={(props.type ?? 'number') === 'number' ? 'any' : undefined}
        min={(props.type ?? 'number') === 'number' ? '0' : undefined}
        value={props.value}
        onInput={(event) => props.onValue(event.currentTarget.value)}
      />
      <span class="soft">{props.unit}</span>
    </label>
  );
}

/** A labelled field of several lines. */
export function LinesField(props: {
  readonly label: string;
  readonly hint: JSX.Element;
  readonly value: string;
  readonly rows?: number;
  readonly onValue: (value: string) => void;
}) {
  return (
    <label class="sample-lines">
      <span>
        {props.label} <span class="soft">{props.hint}</span>
      </span>
      <textarea
        rows={props.rows ?? 3}
        spellcheck={false}
        value={props.value}
        onInput={(event) => props.onValue(event.currentTarget.value)}
      />
    </label>
  );
}
