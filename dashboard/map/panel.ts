import { GPUInitializationError } from 'maplibre-gl';
import { createEffect, createSignal, on, onCleanup } from 'solid-js';
import type { PointedMark } from './pointed.ts';
import type { RainMapProps } from './RainMap.tsx';
import { SheetMap } from './sheet-map.ts';
import type { CellSummary } from './tiles/cells.ts';
import { startWalk, stepWalk, type Walk } from './walk.ts';

/** Buildings a walk by keyboard goes through at most. */
const longestWalk = 500;

/** Keys of the map beside the arrows, plus and minus, which the canvas knows itself. */
export const keysHelp =
  'Arrow keys move the sheet, plus and minus zoom, n and p step through the buildings nearest its centre, Enter opens one, Escape leaves it.';

const themeOf = (dark: boolean) => (dark ? 'dark' : 'light');

/** What the panel says when it cannot draw. */
const noWebGL =
  'The map cannot be drawn here: this browser does not offer WebGL 2. The list holds the same buildings.';
const stopped = (cause: { readonly message: string }) =>
  `The map stopped drawing (${cause.message}). The list holds the same buildings.`;

/** The state of the map panel, and the sheet that follows the page's properties. Call within a component. */
export function createPanel(props: RainMapProps) {
  const [sheet, setSheet] = createSignal<SheetMap>();
  const [drawn, setDrawn] = createSignal(false);
  const [trouble, setTrouble] = createSignal<string>();
  const [pointed, setPointed] = createSignal<PointedMark>();
  const [walk, setWalk] = createSignal<Walk>();
  /** Buildings of the portfolio by tier, as the worker counted them. */
  const [counts, setCounts] = createSignal<readonly number[]>();
  const [placed, setPlaced] = createSignal<number>();
  const [range, setRange] = createSignal<readonly [number, number]>();
  /** Counts the map's moves, for what is laid over it. */
  const [moves, setMoves] = createSignal(0);

  const point = (mark: PointedMark | undefined) => {
    if (mark?.b !== pointed()?.b) props.onHover(mark?.b);
    setPointed(mark);
  };

  const open = (container: HTMLElement) => {
    setTrouble(undefined);
    container.replaceChildren();
    try {
      const start = {
        places: props.frame,
        theme: themeOf(props.dark),
        units: props.units,
      } as const;
      const map = new SheetMap(container, start, {
        onPoint: (mark) => {
          setWalk(undefined);
          point(mark);
        },
        onPick: (b) => props.onSelect(b),
        onKey: (key) => keys[key]?.(),
        onPlaced: setPlaced,
        onDrawn: setDrawn,
        onTrouble: (cause) => setTrouble(stopped(cause)),
      });
      map.onMove(() => {
        setMoves((n) => n + 1);
        setWalk(undefined);
      });
      setSheet(map);
    } catch (cause) {
      setTrouble(cause instanceof GPUInitializationError ? noWebGL : stopped(cause as Error));
    }
  };
  const close = () => {
    sheet()?.remove();
    setSheet(undefined);
  };
  onCleanup(close);

  follow(props, sheet, { pointed, setRange, setCounts });

  const step = async (by: 1 | -1) => {
    const before = walk();
    const order = before ? undefined : await sheet()?.nearest(longestWalk);
    const next = before ? stepWalk(before, by) : order && startWalk(order);
    setWalk(next);
    point(next && { b: next.order[next.at]!, n: 1 });
  };
  const leave = () => {
    setWalk(undefined);
    point(undefined);
  };

  createEffect(on(() => props.shown, leave, { defer: true }));

  const keys: Readonly<Record<string, () => void>> = {
    n: () => void step(1),
    p: () => void step(-1),
    Enter: () => pointed() && props.onSelect(pointed()?.b),
    Escape: leave,
  };

  /** What lies under a mark of several buildings. */
  const under = async (mark: PointedMark): Promise<CellSummary | undefined> => sheet()?.under(mark);

  /** Buildings without a place on record. */
  const unplaced = () => props.frame.n - (placed() ?? props.frame.n);

  return {
    sheet,
    drawn,
    trouble,
    pointed,
    walk,
    counts,
    unplaced,
    range,
    moves,
    under,
    open,
    close,
  };
}

interface Followed {
  pointed(): PointedMark | undefined;
  setRange(range: readonly [number, number] | undefined): void;
  setCounts(counts: readonly number[] | undefined): void;
}

/** Keeps the sheet abreast of the page's properties, and the legend of what the worker tells. */
function follow(
  props: RainMapProps,
  sheet: () => SheetMap | undefined,
  { pointed, setRange, setCounts }: Followed,
): void {
  // In this order: the places come before what is told of them by ordinal.
  createEffect(() => sheet()?.setPlaces(props.frame));
  createEffect(async () => {
    const [map, scores] = [sheet(), props.scores];
    const counts = await map?.setScores(scores);
    if (map && map === sheet() && scores === props.scores) setCounts(counts);
  });
  createEffect(
    on([sheet, () => props.frame, () => props.shown], ([map, , shown]) => map?.setShown(shown)),
  );
  createEffect(() => sheet()?.setUnits(props.units));
  createEffect(
    on(
      () => themeOf(props.dark),
      (name) => sheet()?.setTheme(name),
      { defer: true },
    ),
  );
  createEffect(async () => {
    const [map, rain] = [sheet(), props.sheet];
    const range = await map?.setRain(rain);
    if (map && map === sheet() && rain === props.sheet) setRange(range);
  });
  createEffect(() => {
    const listed = props.hovered;
    const hovered = pointed() ?? (listed === undefined ? undefined : { b: listed, n: 1 });
    sheet()?.setPicked({ hovered, selected: props.selected });
  });
  createEffect(() => {
    if (props.selected !== undefined) sheet()?.reveal(props.selected);
  });
}
