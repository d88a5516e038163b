import { createMemo, For } from 'solid-js';
import type { ShownPlan } from '../../analysis/survey/plan-standing.ts';
import { planLines } from '../../analysis/survey/plan-table.ts';
import { useDesk } from '../state/desk.ts';
import { FieldSheet } from './FieldSheet.tsx';
import { locatorsOf, placesOf, sheetLines } from './field-sheet.ts';

const kmPerMile = 1.609344;

/** One page for each wall to open, replacements last. */
export function FieldSheets(props: { readonly shown: ShownPlan }) {
  const { state } = useDesk();
  const lines = createMemo(() => planLines(props.shown));
  const locators = createMemo(() =>
    locatorsOf(placesOf(lines()), state.units === 'metric' ? 1 : kmPerMile),
  );
  return (
    <For each={sheetLines(lines())}>
      {(line) => (
        <FieldSheet
          line={line}
          shown={props.shown}
          locator={locators().get(line.unit.cluster) ?? null}
        />
      )}
    </For>
  );
}
