import { type Accessor, createSignal, onCleanup } from 'solid-js';

/** The width of an element as it is laid out, px; a common column's before it stands. */
export function createWidth(): [Accessor<number>, (element: Element) => void] {
  const [width, setWidth] = createSignal(320);
  const attach = (element: Element) => {
    const observer = new ResizeObserver(([entry]) => {
      if (entry && entry.contentRect.width > 0) setWidth(entry.contentRect.width);
    });
    observer.observe(element);
    onCleanup(() => observer.disconnect());
  };
  return [width, attach];
}
