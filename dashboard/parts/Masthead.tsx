import { For } from 'solid-js';
import { OfflineWord } from '../offline/OfflineWord.tsx';
import { patch } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { viewFragment } from '../state/fragment.ts';
import { sheets, type View, views } from '../state/page-state.ts';
import { Choice } from './Choice.tsx';
import './shell.css';

const unitWords = [
  { value: 'metric', word: 'metric' },
  { value: 'american', word: 'American' },
] as const;

const sheetWords = sheets.map((value) => ({ value, word: value }));

/** A button, not a link: the address after the `#` is the state of the page. */
function toContent(): void {
  const main = document.querySelector('main');
  if (!main) return;
  main.tabIndex = -1;
  main.focus();
}

/** Name, job, views, and the two switches that hold everywhere. */
export function Masthead() {
  const { state, apply } = useDesk();
  const go = (event: MouseEvent, view: View) => {
    event.preventDefault();
    apply(patch({ view, opened: false }));
  };
  return (
    <header class="masthead">
      <button type="button" class="skip" onClick={toContent}>
        Skip to the sheet
      </button>
      <h1>Rainledger</h1>
      <p class="job">
        Which walls take the most rain with the least drainage behind them. <OfflineWord />
      </p>
      <nav class="views" aria-label="Views">
        <For each={views}>
          {(view) => (
            <a
              href={viewFragment(state, view)}
              aria-current={state.view === view ? 'page' : undefined}
              onClick={(event) => go(event, view)}
            >
              {view}
            </a>
          )}
        </For>
      </nav>
      <Choice
        legend="Units"
        words={unitWords}
        value={state.units}
        onChoose={(units) => apply(patch({ units }))}
      />
      <Choice
        legend="Sheet"
        words={sheetWords}
        value={state.sheet}
        onChoose={(sheet) => apply(patch({ sheet }))}
      />
    </header>
  );
}
