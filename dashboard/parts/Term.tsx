import { createSignal, createUniqueId, type JSX, Show } from 'solid-js';
import { explained, placeTerm } from './terms.ts';
import './term.css';

/**
 * A word with its meaning behind it: dotted underline, a note beside it, Escape or a click elsewhere folds it back.
 * Without children it is a small mark to stand after a word that is a button already, such as a heading that sorts.
 * The note is a native popover, so that it needs no script to close and no place in the page's own stacking.
 */
export function Term(props: { readonly of: string; readonly children?: JSX.Element }) {
  const id = createUniqueId();
  const [open, setOpen] = createSignal(false);
  let word: HTMLButtonElement | undefined;
  const place = (event: ToggleEvent & { currentTarget: HTMLElement }) => {
    setOpen(event.newState === 'open');
    if (word && event.newState === 'open') settle(event.currentTarget, word);
  };
  return (
    <>
      <button
        type="button"
        class="term"
        data-mark={props.children === undefined || undefined}
        popovertarget={id}
        aria-describedby={open() ? id : undefined}
        ref={word}
        onClick={(event) => event.stopPropagation()}
        onKeyDown={(event) => {
          // What stands around the term must not fold back with it.
          if (event.key === 'Escape' && open()) event.stopPropagation();
        }}
      >
        <Show when={props.children} fallback={<Mark of={props.of} />}>
          {props.children}
        </Show>
      </button>
      <span class="term-note" id={id} popover="auto" on:beforetoggle={place}>
        <b>{explained(props.of).words}.</b> {explained(props.of).text}
      </span>
    </>
  );
}

function Mark(props: { readonly of: string }) {
  return (
    <>
      <span aria-hidden="true">?</span>
      <span class="unseen">What “{explained(props.of).words}” means</span>
    </>
  );
}

function settle(note: HTMLElement, word: HTMLElement): void {
  const { left, top, side } = placeTerm(word.getBoundingClientRect(), {
    width: document.documentElement.clientWidth,
    height: window.innerHeight,
  });
  note.style.setProperty('--term-left', `${left + window.scrollX}px`);
  note.style.setProperty('--term-top', `${top + window.scrollY}px`);
  note.dataset.side = side;
}
