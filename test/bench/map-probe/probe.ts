import { createComponent, createSignal } from 'solid-js';
import { render } from 'solid-js/web';
import { asLonLat } from '../../../analysis/rain/as-lon-lat.ts';
import { decodeGrid } from '../../../analysis/rain/grid.ts';
import { RainMap } from '../../../dashboard/map/RainMap.tsx';
import gridUrl from '../../../data/built/annual-precip.bin?url';
import { columnsOf, scoresOf } from './columns.ts';
import { featuresOf, plainMap } from './plain.ts';

/** What can befall an open map: moves, another ranking, a filter that a third of the buildings pass, and none again. */
export type Work = 'nearer' | 'aside' | 'farther' | 'rerank' | 'filter' | 'unfilter';

declare global {
  interface Window {
    /** Opens the map over as many buildings: until all of it is drawn, ms. */
    openSheet: (n: number) => Promise<number>;
    /** The same data through MapLibre's plain GeoJSON source, ms. */
    openPlain: (n: number) => Promise<number>;
    /** Does a work on the open map: until all of it is drawn again, ms. */
    befall: (work: Work) => Promise<number>;
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

async function drawnAfter(work: () => void): Promise<number> {
  // What prepared the work is no part of it.
  await new Promise((resolve) => setTimeout(resolve, 50));
  const start = performance.now();
  const done = drawn();
  work();
  await done;
  return performance.now() - start;
}

const press = (name: string) => () =>
  field().querySelector<HTMLButtonElement>(`button[aria-label="${name}"]`)!.click();
const key = (name: string, keyCode: number) => () =>
  field()
    .querySelector('canvas')!
    .dispatchEvent(new KeyboardEvent('keydown', { key: name, keyCode, bubbles: true }));

window.openSheet = async (n) => {
  const frame = columnsOf(n);
  const sheet = asLonLat(decodeGrid(await (await fetch(gridUrl)).arrayBuffer()), 250_000);
  const [scores, setScores] = createSignal<Pick<typeof frame, 'tier' | 'cents'>>(frame);
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
    dark: false,
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
  document.documentElement.dataset.sheet = 'light';
  return drawnAfter(() => {
    render(() => createComponent(RainMap, props), field());
  });
};

window.openPlain = async (n) => {
  const features = featuresOf(columnsOf(n));
  const start = performance.now();
  await plainMap(field(), features);
  return performance.now() - start;
};
