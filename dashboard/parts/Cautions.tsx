import { For } from 'solid-js';
import { cautions } from '../../analysis/cautions.ts';
import { Fold } from './Fold.tsx';
import './cautions.css';

/** All cautions in full, as a list that prints. */
export function CautionList() {
  return (
    <ul class="caution-list">
      <For each={cautions}>
        {(caution) => (
          <li>
            <b>{caution.short}</b> {caution.text}
          </li>
        )}
      </For>
    </ul>
  );
}

/** The line that stands over every ranking, with the rest one click away. */
export function CautionLine() {
  return (
    <Fold
      class="caution-line"
      summary={
        <>
          <b>Screening, not diagnosis.</b> A low place is not a clearance. Leaks, soft floors, loose
          cladding or sagging balconies come first, whatever the rank.{' '}
          <span class="caution-door">Cautions</span>
        </>
      }
    >
      <section class="caution-fold" tabindex={0} aria-label="Cautions">
        <CautionList />
      </section>
    </Fold>
  );
}
