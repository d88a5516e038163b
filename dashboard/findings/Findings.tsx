import { createMemo, createSignal, For, Show } from 'solid-js';
import { cautions } from '../../analysis/cautions.ts';
import { CautionLine } from '../parts/Cautions.tsx';
import { TermLine } from '../parts/TermLine.tsx';
import { useDesk } from '../state/desk.ts';
import type { LoggedFinding } from '../state/survey.ts';
import { FindingsFile } from './FindingsFile.tsx';
import { LogFold } from './LogFold.tsx';
import { Population } from './Population.tsx';
import { createPrinting } from './printing.ts';
import { Register } from './Register.tsx';
import { registerOf } from './register.ts';
import { Teaching } from './Teaching.tsx';
import './findings.css';

/** What a person who opens walls and reads meters has to know before the rest. */
const pressing = ['BEFORE-CUTTING', 'OPENING-DESTROYS', 'METER-READINGS'];

/** What was found at the walls that were opened, and what it says of the others. */
export function Findings() {
  const { session, survey } = useDesk();
  const [amending, setAmending] = createSignal<LoggedFinding | null>(null);
  const printing = createPrinting();
  const entries = createMemo(() => registerOf(survey.findings(), survey.logged(), survey.plans()));
  return (
    <section
      class="sheet-of-text findings"
      aria-label="Findings"
      data-printing={printing.part() ?? undefined}
    >
      <h2>Findings</h2>
      <p class="lead">
        What was found at the walls that were looked at, what that says of the walls that were not,
        and with how much confidence. Only an opening shows the sheathing; only walls that chance
        chose speak for others.
      </p>
      <CautionLine />
      <ul class="pressing">
        <For each={cautions.filter(({ id }) => pressing.includes(id ?? ''))}>
          {(caution) => (
            <li>
              <b>{caution.short}</b> {caution.text}
            </li>
          )}
        </For>
      </ul>
      <Show
        when={session.opened()}
        fallback={<p class="panel-state">Reading the buildings first …</p>}
      >
        <h3>On record</h3>
        <TermLine of={['opening', 'plan', 'opportunistic', 'sheathing']} />
        <LogFold amending={amending()} entries={entries()} onDone={() => setAmending(null)} />
        <FindingsFile />
        <Register entries={entries()} onAmend={setAmending} />
        <Population printing={printing} />
        <Teaching entries={entries()} />
      </Show>
    </section>
  );
}
