import { createEffect, createResource, createSignal, onCleanup, Show } from 'solid-js';
import { Portal } from 'solid-js/web';
import { useDesk } from '../state/desk.ts';
import { Answer } from './Answer.tsx';
import { LedgerEntry } from './LedgerEntry.tsx';
import { type LedgerRequest, placeNote } from './ledger-request.ts';
import { label } from './words.ts';
import './ledger.css';

/** The folded-out margin note with the derivation of the number that was asked to open. */
export function LedgerNote() {
  const desk = useDesk();
  return (
    <Show when={desk.ledger()} keyed>
      {(request) => (
        <Portal>
          <Note request={request} onClose={desk.closeLedger} />
        </Portal>
      )}
    </Show>
  );
}

function Note(props: { readonly request: LedgerRequest; readonly onClose: () => void }) {
  const desk = useDesk();
  const { b, column, wall, anchor } = props.request;
  const [node] = createResource(() => desk.session.analyst.ledger(b, column, wall));
  const [note, setNote] = createSignal<HTMLElement>();
  const close = () => {
    props.onClose();
    returnFocus(anchor);
  };
  createEffect(() => {
    const element = note();
    // The note grows when its text arrives: it is placed again.
    node.state;
    if (element) settle(element, anchor);
  });
  createEffect(() => note()?.focus({ preventScroll: true }));
  const outside = (event: PointerEvent) => {
    const target = event.target as Node;
    if (!note()?.contains(target) && !anchor.contains(target)) props.onClose();
  };
  document.addEventListener('pointerdown', outside);
  onCleanup(() => document.removeEventListener('pointerdown', outside));
  return (
    <section
      class="ledger"
      role="dialog"
      aria-label={`Ledger: ${label(column)}`}
      tabindex={-1}
      ref={setNote}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        close();
      }}
    >
      <div class="ledger-head">
        <h2>{label(column)}</h2>
        <button type="button" class="plain-button" onClick={close}>
          Fold back
        </button>
      </div>
      <Answer
        of={node}
        wait="Following the number back …"
        trouble="This number’s ledger could not be opened:"
      >
        {(root) => (
          <ul class="ledger-tree">
            <LedgerEntry node={root()} units={desk.state.units} depth={0} />
          </ul>
        )}
      </Answer>
    </section>
  );
}

/** Puts the note beside its number; a narrow screen sets it along the bottom edge by its style sheet alone. */
function settle(note: HTMLElement, anchor: HTMLElement): void {
  if (!anchor.isConnected) return;
  const { width, height } = note.getBoundingClientRect();
  const place = placeNote(
    anchor.getBoundingClientRect(),
    { width, height },
    { width: window.innerWidth, height: window.innerHeight },
  );
  note.style.setProperty('--note-left', `${place.left}px`);
  note.style.setProperty('--note-top', `${place.top}px`);
  note.dataset.side = place.side;
}

/** A row may have been scrolled out of the table meanwhile: then the table itself takes the focus. */
function returnFocus(anchor: HTMLElement): void {
  const target = anchor.isConnected ? anchor : document.querySelector<HTMLElement>('[role="grid"]');
  target?.focus();
}
