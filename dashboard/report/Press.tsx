import { createSignal, type JSX, onCleanup, onMount, Show } from 'solid-js';
import { Portal } from 'solid-js/web';
import { afterPrint } from '../parts/after-print.ts';
import { messageOf } from '../parts/message-of.ts';
import { type Footing, footingProperties } from './footing.ts';
import './report.css';
import './tables.css';
import './pictures.css';

/** Sheets ready to be printed: all data are at hand. */
export interface Sheets {
  readonly footing: Footing;
  /** Offered by the browser as the name of the file. */
  readonly fileName: string;
  readonly body: () => JSX.Element;
}

/** A button that gathers sheets, prints them alone, and takes them away after. */
export function PrintButton(props: {
  readonly children: JSX.Element;
  readonly make: () => Promise<Sheets>;
}) {
  const [sheets, setSheets] = createSignal<Sheets | null>(null);
  const [busy, setBusy] = createSignal(false);
  const [trouble, setTrouble] = createSignal<string | null>(null);
  const print = async () => {
    if (busy()) return;
    setBusy(true);
    setTrouble(null);
    try {
      setSheets(await props.make());
    } catch (error) {
      setTrouble(messageOf(error));
    }
    setBusy(false);
  };
  return (
    <>
      <button
        type="button"
        class="plain-button print-button"
        aria-busy={busy()}
        onClick={() => void print()}
      >
        {busy() ? 'Laying out …' : props.children}
      </button>
      <Show when={trouble()}>
        {(message) => <span role="alert">It could not be laid out for print: {message()}</span>}
      </Show>
      <Show when={sheets()} keyed>
        {(ready) => <Paper sheets={ready} onDone={() => setSheets(null)} />}
      </Show>
    </>
  );
}

/** What only paper sees. It stands beside the page, not in it, so that no view has to know how to hide itself. */
function Paper(props: { readonly sheets: Sheets; readonly onDone: () => void }) {
  const root = document.documentElement;
  const named = document.title;
  const properties = footingProperties(props.sheets.footing);
  afterPrint(() => props.onDone());
  onMount(() => {
    for (const [name, value] of properties) root.style.setProperty(name, value);
    document.title = props.sheets.fileName;
    void document.fonts.ready.then(() => requestAnimationFrame(() => window.print()));
  });
  onCleanup(() => {
    for (const [name] of properties) root.style.removeProperty(name);
    document.title = named;
  });
  return (
    <Portal
      mount={document.body}
      ref={(element) => {
        element.className = 'paper';
      }}
    >
      {props.sheets.body()}
    </Portal>
  );
}
