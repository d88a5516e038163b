/** Which number was asked to open, and the element it stands in: the note unfolds beside it. */
export interface LedgerRequest {
  readonly b: number;
  readonly column: string;
  readonly wall?: number;
  readonly anchor: HTMLElement;
}

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface Place {
  readonly left: number;
  readonly top: number;
  readonly side: 'right' | 'left' | 'below';
}

const gap = 14;

/**
 * Where the note unfolds, px of the window: to the right of its number where there is room, else to its left, else at
 * the right edge; never above or below the window.
 */
export function placeNote(
  anchor: Box,
  note: { width: number; height: number },
  view: { width: number; height: number },
): Place {
  const top = Math.max(gap, Math.min(anchor.top - 20, view.height - note.height - gap));
  if (anchor.right + gap + note.width <= view.width - gap)
    return { left: anchor.right + gap, top, side: 'right' };
  if (anchor.left - gap - note.width >= gap)
    return { left: anchor.left - gap - note.width, top, side: 'left' };
  return { left: Math.max(gap, view.width - note.width - gap), top, side: 'below' };
}
