import { wordOf } from './readings.ts';

/** The word of a row, which is also what chooses it. */
export function RowName(props: {
  /** null: no record. */
  readonly word: string | null;
  readonly chosen: boolean;
  /** Whether the Tab key comes to it: of the buttons of a chart one does, arrows walk among them. */
  readonly entry?: boolean;
  readonly onChoose: () => void;
}) {
  return (
    <th scope="row">
      <button
        type="button"
        class="row-name"
        tabindex={props.entry ? 0 : -1}
        title={wordOf(props.word)}
        aria-pressed={props.chosen}
        onClick={() => props.onChoose()}
      >
        {wordOf(props.word)}
      </button>
    </th>
  );
}
