import { createSignal } from 'solid-js';
import { afterPrint } from '../parts/after-print.ts';

export interface Printing {
  /** What is being printed alone; null where the whole view is. */
  readonly part: () => string | null;
  readonly print: (part: string) => void;
}

/** Prints one part of the view alone, with its cautions. Call within a component. */
export function createPrinting(): Printing {
  const [part, setPart] = createSignal<string | null>(null);
  afterPrint(() => setPart(null));
  const print = (wanted: string) => {
    setPart(wanted);
    window.print();
  };
  return { part, print };
}
