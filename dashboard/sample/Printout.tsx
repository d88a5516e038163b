import { createEffect, Match, on, Switch } from 'solid-js';
import type { ShownPlan } from '../../analysis/survey/plan-standing.ts';
import { afterPrint } from '../parts/after-print.ts';
import { FieldSheets } from './FieldSheets.tsx';
import { PlanReport } from './PlanReport.tsx';
import './printout.css';

/** What is to be printed. */
export interface Printed {
  readonly what: 'report' | 'field sheets';
  readonly shown: ShownPlan;
}

/** Sheets that only paper sees: they are made when asked for, printed, and taken away after. */
export function Printout(props: { readonly printed: Printed; readonly onDone: () => void }) {
  afterPrint(() => props.onDone());
  createEffect(
    on(
      () => props.printed,
      // The sheets are laid out before the browser looks at them.
      () => requestAnimationFrame(() => window.print()),
    ),
  );
  return (
    <section class="printout" aria-label={`To print: ${props.printed.what}`}>
      <Switch>
        <Match when={props.printed.what === 'report'}>
          <PlanReport shown={props.printed.shown} />
        </Match>
        <Match when={props.printed.what === 'field sheets'}>
          <FieldSheets shown={props.printed.shown} />
        </Match>
      </Switch>
    </section>
  );
}
