import { createEffect, createSignal, onCleanup } from 'solid-js';
import { createStore, reconcile } from 'solid-js/store';
import { type Change, otherFiles, patch } from './changes.ts';
import { fromFragment, isStep, toFragment } from './fragment.ts';
import type { PageState } from './page-state.ts';
import { askedOf, noSteps, redone, type Steps, stepped, undone } from './steps.ts';

/** The one store of the page. `state` is read, `apply` is the only way to change it. */
export interface PageStore {
  readonly state: PageState;
  readonly apply: (...changes: Change[]) => void;
  /** As `apply`, while a brush is drawn: what is asked for in the end is one step, made by the `apply` that follows. */
  readonly preview: (...changes: Change[]) => void;
  /** The brush is given up: what was asked for before it stands again. */
  readonly giveUp: () => void;
  /** Takes back the last change of filters, order or sort, and gives it again; null where there is none. */
  readonly undo: () => (() => void) | null;
  readonly redo: () => (() => void) | null;
  /** The building under the pointer, on the map or in the table; not part of the address. */
  readonly hovered: () => number | null;
  readonly hover: (b: number | null) => void;
  /** True where the address spoke of the user's own files and this browser does not keep them. */
  readonly lost: boolean;
}

/** An address written over other files: what points into them is dropped, the rest is kept. */
const about = (own: boolean, found: PageState): PageState =>
  found.own === own ? found : otherFiles(own)(found);

/**
 * Reads the address once, then keeps address and state equal: views and opened buildings are steps of history.
 * `own`: the user's own files are opened with the page; `kept` is the address with which they were last seen, for a
 * page that is opened without one.
 */
export function createPageStore(own: boolean, kept: string): PageStore {
  const found = fromFragment(location.hash || kept);
  let current = { ...about(own, found), own };
  history.replaceState(null, '', toFragment(current));
  // The store changes its own objects in place: it is given copies, so that what is kept to go back to stays as it was.
  const [state, setState] = createStore<PageState>(structuredClone(current));
  const [hovered, hover] = createSignal<number | null>(null);

  const [steps, setSteps] = createSignal<Steps>(noSteps);
  const address = createAddress();
  const settle = (next: PageState) => {
    current = next;
    setState(reconcile(structuredClone(next), { merge: true }));
  };
  /** The question from which a brush set out. */
  let before = askedOf(current);
  const show = (changes: readonly Change[]) => {
    const next = changes.reduce((s, change) => change(s), current);
    address.write(toFragment(next), isStep(current, next));
    settle(next);
  };
  const apply = (...changes: Change[]) => {
    show(changes);
    setSteps((made) => stepped(made, before, askedOf(current)));
    before = askedOf(current);
  };
  const go = (move: typeof undone) => {
    const found = move(steps(), askedOf(current));
    if (!found) return;
    setSteps(found.steps);
    before = found.asked;
    show([patch(found.asked)]);
  };
  address.follow(() => {
    settle(about(current.own, fromFragment(location.hash)));
    before = askedOf(current);
  });
  return {
    state,
    apply,
    preview: (...changes) => show(changes),
    giveUp: () => show([patch(before)]),
    undo: () => (steps().past.length > 0 ? () => go(undone) : null),
    redo: () => (steps().future.length > 0 ? () => go(redone) : null),
    hovered,
    hover,
    lost: found.own && !own,
  };
}

/** Browsers refuse to write the address too often (holding an arrow key would): small changes are gathered. */
const gather = 200;

function createAddress() {
  let waiting: ReturnType<typeof setTimeout> | undefined;
  const replace = (fragment: string) => {
    clearTimeout(waiting);
    waiting = setTimeout(() => history.replaceState(null, '', fragment), gather);
  };
  const push = (fragment: string) => {
    clearTimeout(waiting);
    history.pushState(null, '', fragment);
  };
  return {
    write: (fragment: string, step: boolean) => (step ? push : replace)(fragment),
    follow: (settle: () => void) => {
      const onAddress = () => {
        clearTimeout(waiting);
        settle();
      };
      window.addEventListener('popstate', onAddress);
      onCleanup(() => window.removeEventListener('popstate', onAddress));
    },
  };
}

/** The sheet in use: the reader's choice, or what the system prefers while the choice is *auto*. */
export function createDark(state: PageState): () => boolean {
  const system = window.matchMedia('(prefers-color-scheme: dark)');
  const [prefersDark, setPrefersDark] = createSignal(system.matches);
  const onChange = () => setPrefersDark(system.matches);
  system.addEventListener('change', onChange);
  onCleanup(() => system.removeEventListener('change', onChange));
  const dark = () => (state.sheet === 'auto' ? prefersDark() : state.sheet === 'dark');
  createEffect(() => {
    document.documentElement.dataset.sheet = dark() ? 'dark' : 'light';
  });
  return dark;
}

/** Follows a media query, for parts whose markup (not only its style) differs between screens. */
export function createMedia(query: string): () => boolean {
  const media = window.matchMedia(query);
  const [matches, set] = createSignal(media.matches);
  const onChange = () => set(media.matches);
  media.addEventListener('change', onChange);
  onCleanup(() => media.removeEventListener('change', onChange));
  return matches;
}
