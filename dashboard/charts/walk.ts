/** Where an arrow key leads from a place in a table of buttons; rows may differ in length. Null: the key does not walk. */
export function stepFrom(
  lengths: readonly number[],
  at: { readonly row: number; readonly column: number },
  key: string,
): { readonly row: number; readonly column: number } | null {
  const steps: Readonly<Record<string, readonly [row: number, column: number]>> = {
    ArrowLeft: [0, -1],
    ArrowRight: [0, 1],
    ArrowUp: [-1, 0],
    ArrowDown: [1, 0],
    Home: [0, Number.NEGATIVE_INFINITY],
    End: [0, Number.POSITIVE_INFINITY],
  };
  const step = steps[key];
  if (!step) return null;
  const row = within(at.row + step[0], lengths.length);
  return { row, column: within(at.column + step[1], lengths[row] ?? 0) };
}

const within = (value: number, n: number): number => Math.max(0, Math.min(n - 1, value));

export const walkWords = 'Arrow keys move from button to button.';

/** Moves the focus among the buttons of a table by arrow keys; only its first button is a stop of the Tab key. */
export function walk(event: KeyboardEvent & { currentTarget: HTMLTableElement }): void {
  const rows = [...event.currentTarget.rows]
    .map((row) => [...row.querySelectorAll('button')])
    .filter((buttons) => buttons.length > 0);
  const target = event.target as HTMLButtonElement;
  const row = rows.findIndex((buttons) => buttons.includes(target));
  const column = rows[row]?.indexOf(target) ?? -1;
  const next =
    row < 0
      ? null
      : stepFrom(
          rows.map(({ length }) => length),
          { row, column },
          event.key,
        );
  if (!next) return;
  event.preventDefault();
  rows[next.row]?.[next.column]?.focus();
}
