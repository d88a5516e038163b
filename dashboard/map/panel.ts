import { GPUInitializationError } from 'maplibre-gl';
import { createEffect, createSignal, on, onCleanup } from 'solid-js';
import type { PointedMark } from './pointed.ts';
import type { RainMapProps } from './RainMap.tsx';
import { SheetMap } from './sheet-map.ts';
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
      const start = { frame: props.frame, theme: themeOf(props.dark), units: props.units } as const;
      const map = new SheetMap(container, start, {
        onPoint: (mark) => {
          setWalk(undefined);
          point(mark);
        },
        onPick: (b) => props.onSelect(b),
        onKey: (key) => keys[key]?.(),
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

  follow(props, sheet, pointed, setRange);

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

  return { sheet, drawn, trouble, pointed, walk, range, moves, open, close };
}

/** Keeps the sheet abreast of the page's properties, and the legend of the rain. */
function follow(
  props: RainMapProps,
  sheet: () => SheetMap | undefined,
  pointed: () => PointedMark | undefined,
  setRange: (range: readonly [number, number] | undefined) => void,
): void {
  createEffect(
    on(
      () => props.frame,
      (frame) => sheet()?.setFrame(frame),
      { defer: true },
    ),
  );
  createEffect(() => sheet()?.setShown(props.shown));
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
    const hovered = pointed()?.b ?? props.hovered;
    sheet()?.setPicked({ hovered, selected: props.selected });
  });
  createEffect(() => {
    if (props.selected !== undefined) sheet()?.reveal(props.selected);
  });
}
