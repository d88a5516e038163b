import { createEffect } from 'solid-js';

/** A number to type. What is no number leaves the text as it stands: it is the reader's to mend. */
export function NumberField(props: {
  readonly value: number;
  /** id of the words that say why it was not taken. */
  readonly troubled: string | null;
  readonly name?: string;
  readonly step: string;
  readonly max?: number;
  readonly onValue: (value: number) => void;
}) {
  let field: HTMLInputElement | undefined;
  createEffect(() => {
    const { value } = props;
    if (field && !Number.isNaN(value) && field.valueAsNumber !== value) field.value = String(value);
  });
  return (
    <input
      ref={field}
      type="number"
      step={props.step}
      max={props.max}
      aria-label={props.name}
      aria-invalid={props.troubled !== null || undefined}
      aria-describedby={props.troubled ?? undefined}
      onChange={(event) => props.onValue(event.currentTarget.valueAsNumber)}
    />
  );
}
