import { Show } from 'solid-js';
import { cellSentence } from './cell-words.ts';
import { lateText } from './late-text.ts';
import type { PointedMark } from './pointed.ts';
import type { CellSummary } from './tiles/cells.ts';

interface MapNoteProps {
  readonly mark: PointedMark;
  /** Where the mark lies in the panel, CSS pixels, and the panel's own size. */
  readonly at: { readonly x: number; readonly y: number };
  readonly within: { readonly width: number; readonly height: number };
  reasonOf(b: number): Promise<string>;
  /** What lies under a mark of several buildings. */
  under(mark: PointedMark): Promise<CellSummary | undefined>;
}

/** Width of a note, as in `map.css`, and its distance from the mark, CSS pixels. */
const width = 240;
const gap = 14;

/** The reason beside a mark, on the side with room for it; of several buildings what they are together first. */
export function MapNote(props: MapNoteProps) {
  const reason = lateText(
    () => props.mark.b,
    (b) => props.reasonOf(b),
  );
  const together = lateText(
    () => (props.mark.n > 1 ? props.mark : undefined),
    async (mark) => {
      const summary = await props.under(mark);
      return summary ? cellSentence(summary) : '';
    },
  );
  const left = () => {
    const room = Math.min(width, props.within.width - 2 * gap);
    const middle = props.at.x - room / 2;
    return Math.max(gap, Math.min(middle, props.within.width - room - gap));
  };
  const isAbove = () => props.at.y > props.within.height / 2;
  const place = () =>
    isAbove()
      ? { left: `${left()}px`, bottom: `${props.within.height - props.at.y + gap}px` }
      : { left: `${left()}px`, top: `${props.at.y + gap}px` };
  return (
    <p class="rain-map-note" style={place()}>
      <Show when={props.mark.n > 1}>
        <span class="rain-map-together">{together()}</span>
        <b>Foremost: </b>
      </Show>
      {reason()}
    </p>
  );
}
