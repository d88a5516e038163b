import { createComponent, createSignal } from 'solid-js';
import { render } from 'solid-js/web';
import { asLonLat } from '../../../analysis/rain/as-lon-lat.ts';
import { decodeGrid } from '../../../analysis/rain/grid.ts';
import { RainMap } from '../../../dashboard/map/RainMap.tsx';
import gridUrl from '../../../data/built/annual-precip.bin?url';
import { columnsOf, type Spread, scoresOf } from './columns.ts';
import { featuresOf, plainMap } from './plain.ts';

/**
 * A work of the map, ms: until all of it is drawn, the longest task of the page's thread meanwhile, and the longest
 * script. Where WebGL is drawn in software a task also waits for the picture.
 */
export interface Taken {
  readonly ms: number;
  readonly longestTask: number;
  readonly longestScript: number;
}

/** What can befall an open map: moves, another ranking, a filter that a third of the buildings pass, and none again. */
export type Work = 'nearer' | 'aside' | 'farther' | 'rerank' | 'filter' | 'unfilter';

declare global {
  interface Window {
    /** Opens the map over as many buildings. */
    openSheet: (n: number, spread: Spread, dark?: boolean) => Promise<Taken>;
    /** The same data through MapLibre's plain GeoJSON source, ms. */
    openPlain: (n: number, spread: Spread) => Promise<number>;
    /** Does a work on the open map. */
    befall: (work: Work) => Promise<Taken>;
  }
}

const field = () => document.getElementById('sheet')!;

/** Resolves when the sheet, which a work has just disturbed, is drawn again. */
function drawn(): Promise<void> {
  const isDrawn = () => field().querySelector('[data-drawn=yes]') !== null;
  return new Promise((resolve) => {
    let disturbed = !isDrawn();
    const observer = new MutationObserver(() => {
      disturbed ||= !isDrawn();
      if (!disturbed || !isDrawn()) return;
      observer.disconnect();
      resolve();
    });
    observer.observe(field(), { subtree: true, childList: true, attributeFilter: ['data-drawn'] });
  });
}

async function drawnAfter(work: () => void): Promise<Taken> {
  // What prepared the work is no part of it.
  await new Promise((resolve) => setTimeout(resolve, 50));
  const tasks = watched('longtask', ({ duration }) => [duration]);
  const scripts = watched('long-animation-frame', (frame) =>
    (frame as LongFrame).scripts.map(({ duration }) => duration),
  );
  const start = performance.now();
  const done = drawn();
  work();
  await done;
  const ms = performance.now() - start;
  // A task is reported after it ends.
  await new Promise((resolve) => setTimeout(resolve, 100));
  return { ms, longestTask: tasks.longest(), longestScript: scripts.longest() };
}

interface LongFrame extends PerformanceEntry {
  readonly scripts: readonly { readonly duration: number }[];
}

/** Gathers durations from what the browser reports until they are asked for. */
function watched(type: string, of: (entry: PerformanceEntry) => readonly number[]) {
  let longest = 0;
  const observer = new PerformanceObserver((list) => {
    longest = Math.max(longest, ...list.getEntries().flatMap(of));
  });
  observer.observe({ type });
  return {
    longest: (): number => {
      observer.disconnect();
      return longest;
    },
  };
}

const press = (name: string) => () =>
  field().querySelector<HTMLButtonElement>(`button[aria-label="${name}"]`)!.click();
const key = (name: string, keyCode: number) => () =>
  field()
    .querySelector('canvas')!
    .dispatchEvent(new KeyboardEvent('keydown', { key: name, keyCode, bubbles: true }));

window.openSheet = async (n, spread, dark = false) => {
  const frame = columnsOf(n, spread);
  const sheet = asLonLat(decodeGrid(await (await fetch(gridUrl)).arrayBuffer()), 250_000);
  const [scores, setScores] = createSignal<Pick<typeof frame, 'tier' | 'index'>>(frame);
  const [shown, setShown] = createSignal<Int32Array | null>(null);
  const third = Int32Array.from({ length: Math.floor(n / 3) }, (_, i) => i * 3);
  const others = [2, 3, 4].map((seed) => scoresOf(n, seed));
  let ranked = 0;
  const doing: Readonly<Record<Work, () => void>> = {
    nearer: press('Zoom in'),
    aside: key('ArrowRight', 39),
    farther: press('Zoom out'),
    rerank: () => setScores(others[ranked++ % others.length]!),
    filter: () => setShown(third),
    unfilter: () => setShown(null),
  };
  window.befall = (work) => drawnAfter(doing[work]);
  const props = {
    frame,
    sheet,
    units: 'american' as const,
    dark,
    selected: undefined,
    hovered: undefined,
    reasonOf: async (b: number) =>
      `Building ${b}: more rain at its west wall than its drainage takes.`,
    onHover: () => {},
    onSelect: () => {},
    get scores() {
      return scores();
    },
    get shown() {
      return shown();
    },
  };
  document.documentElement.dataset.sheet = dark ? 'dark' : 'light';
  return drawnAfter(() => {
    render(() => createComponent(RainMap, props), field());
  });
};

window.openPlain = async (n, spread) => {
  const features = featuresOf(columnsOf(n, spread));
  const start = performance.now();
  await plainMap(field(), features);
  return performance.now() - start;
};
