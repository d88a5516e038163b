import { createMemo, For } from 'solid-js';
import { useDesk } from '../state/desk.ts';
import { FieldSheet } from './FieldSheet.tsx';
import { placesOf, sheetLines } from './field-sheet.ts';
import { locatorOf } from './locator.ts';
import type { ShownPlan } from './plan-standing.ts';
import { planLines } from './plan-table.ts';

const kmPerMile = 1.609344;

/** One page for each wall to open, replacements last. */
export function FieldSheets(props: { readonly shown: ShownPlan }) {
  const { state } = useDesk();
  const lines = createMemo(() => planLines(props.shown));
  const locator = createMemo(() =>
    locatorOf(placesOf(lines()), state.units === 'metric' ? 1 : kmPerMile),
  );
  return (
    <For each={sheetLines(lines())}>
      {(line) => <FieldSheet line={line} shown={props.shown} locator={locator()} />}
    </For>
  );
}
