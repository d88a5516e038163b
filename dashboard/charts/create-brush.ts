import { type Accessor, createSignal, onCleanup } from 'solid-js';
import { type Box, fieldOf } from './box.ts';
import { type Cover, coverAt, type Hold, holdAt, type Place } from './brush.ts';

interface Brushed {
  readonly box: Accessor<Box>;
  /** Bins of each axis; 1 where the axis takes no part. */
  readonly bins: Accessor<Place>;
  /** What the filters cover. */
  readonly cover: Accessor<Cover>;
  readonly onPreview: (cover: Cover | null) => void;
  readonly onCommit: (cover: Cover) => void;
}

/** A drag under way: what is held, where the pointer went down, and whether it has moved since. */
interface Drag {
  readonly hold: Hold;
  readonly x: number;
  readonly y: number;
  moved: boolean;
}

/** How near to an edge a pointer grips it, and how far it must move before it draws, px. */
const REACH = { mouse: 6, touch: 14 } as const;
const STILL = 3;

export interface Brush {
  /** What is covered now: what is being drawn, else what the filters say. */
  readonly cover: Accessor<Cover>;
  /** Where a pointer rests, in bins; null outside. */
  readonly pointed: Accessor<Place | null>;
  /** Shows a cover without choosing it, at most once a frame. */
  readonly preview: (cover: Cover) => void;
  readonly commit: (cover: Cover) => void;
  readonly onPointerDown: (event: PointerEvent) => void;
  readonly onPointerMove: (event: PointerEvent) => void;
  readonly onPointerUp: (event: PointerEvent) => void;
  readonly onPointerCancel: () => void;
  readonly onPointerLeave: () => void;
}

export const nothingCovered: Cover = { x: null, y: null };

/** A brush drawn with a pointer on an SVG whose field lies in `box`; keys reach it through `preview` and `commit`. */
export function createBrush(brushed: Brushed): Brush {
  const [live, setLive] = createSignal<Cover | null>(null);
  const [pointed, setPointed] = createSignal<Place | null>(null);
  const once = oncePerFrame(() => {
    const cover = live();
    if (cover) brushed.onPreview(cover);
  });
  let drag: Drag | null = null;

  const preview = (cover: Cover) => {
    setLive(cover);
    once.ask();
  };
  const commit = (cover: Cover) => {
    once.drop();
    brushed.onCommit(cover);
    setLive(null);
  };
  const letGo = () => {
    const held = drag;
    drag = null;
    document.removeEventListener('keydown', onKey);
    return held;
  };
  const giveUp = () => {
    if (!letGo()) return;
    once.drop();
    setLive(null);
    brushed.onPreview(null);
  };
  const onKey = (event: KeyboardEvent) => event.key === 'Escape' && giveUp();
  onCleanup(() => drag && letGo());

  const release = () => {
    const cover = live();
    const held = letGo();
    if (held?.moved && cover) commit(cover);
    else if (held?.hold.grip.x === 'draw') commit(nothingCovered);
  };
  return {
    cover: () => live() ?? brushed.cover(),
    pointed,
    preview,
    commit,
    onPointerDown: (event) => {
      if (event.button !== 0) return;
      (event.currentTarget as Element).setPointerCapture(event.pointerId);
      const reach = event.pointerType === 'touch' ? REACH.touch : REACH.mouse;
      const start = placeIn(event, brushed);
      const hold = holdAt(brushed.cover(), start, reachIn(reach, brushed));
      drag = { hold, x: event.clientX, y: event.clientY, moved: false };
      document.addEventListener('keydown', onKey);
    },
    onPointerMove: (event) => {
      const at = placeIn(event, brushed);
      setPointed(at);
      if (!drag) return;
      drag.moved ||= Math.hypot(event.clientX - drag.x, event.clientY - drag.y) > STILL;
      if (drag.moved) preview(coverAt(drag.hold, at, brushed.bins()));
    },
    onPointerUp: release,
    onPointerCancel: giveUp,
    onPointerLeave: () => setPointed(null),
  };
}

/** A pointer's place in bins. The drawing may be laid out wider than its own pixels. */
function placeIn(event: PointerEvent, { box, bins }: Brushed): Place {
  const svg = event.currentTarget as SVGSVGElement;
  const bounds = svg.getBoundingClientRect();
  const { width, height } = fieldOf(box());
  const scale = box().width / bounds.width;
  const x = ((event.clientX - bounds.left) * scale - box().left) / width;
  const y = ((event.clientY - bounds.top) * scale - box().top) / height;
  return { x: x * bins().x, y: y * bins().y };
}

function reachIn(reach: number, { box, bins }: Brushed): Place {
  const { width, height } = fieldOf(box());
  return { x: (reach / width) * bins().x, y: (reach / height) * bins().y };
}

/** Calls once in the next frame, however often it was asked. */
function oncePerFrame(call: () => void): { readonly ask: () => void; readonly drop: () => void } {
  let frame = 0;
  const drop = () => {
    if (frame) cancelAnimationFrame(frame);
    frame = 0;
  };
  onCleanup(drop);
  return {
    ask: () => {
      frame ||= requestAnimationFrame(() => {
        frame = 0;
        call();
      });
    },
    drop,
  };
}
