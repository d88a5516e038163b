/**
 * A brush over bins: where it was gripped and where the pointer is now decide what it covers. Pure; places are in bins
 * (2.5 is the middle of the third bin), so that nothing here knows a pixel.
 */

/** Part of an axis in bins; whole numbers are edges. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** What is covered on each axis; null: all of it. */
export interface Cover {
  readonly x: Span | null;
  readonly y: Span | null;
}

export interface Place {
  readonly x: number;
  readonly y: number;
}

/** How an axis takes part in a drag. */
type Grip = 'draw' | 'move' | 'from' | 'to' | 'stay';

export interface Hold {
  readonly start: Place;
  readonly before: Cover;
  readonly grip: { readonly x: Grip; readonly y: Grip };
}

type Zone = 'inside' | 'from' | 'to' | 'outside';

function zoneOf(span: Span | null, at: number, reach: number): Zone {
  if (!span) return 'inside';
  if (Math.abs(at - span.to) <= reach) return 'to';
  if (Math.abs(at - span.from) <= reach) return 'from';
  return at > span.from && at < span.to ? 'inside' : 'outside';
}

/** An axis that is not gripped by its edge moves along, unless the other one is. */
const gripOf = (own: Zone, other: Zone): Grip => {
  if (own === 'from' || own === 'to') return own;
  return other === 'inside' ? 'move' : 'stay';
};

/** @param reach how near to an edge grips it, in bins */
export function holdAt(before: Cover, start: Place, reach: Place): Hold {
  const x = zoneOf(before.x, start.x, reach.x);
  const y = zoneOf(before.y, start.y, reach.y);
  const drawn = (before.x === null && before.y === null) || x === 'outside' || y === 'outside';
  const grip = drawn ? ({ x: 'draw', y: 'draw' } as const) : { x: gripOf(x, y), y: gripOf(y, x) };
  return { start, before, grip };
}

/** What the brush covers with the pointer at `at`, on axes of so many bins. */
export const coverAt = ({ start, before, grip }: Hold, at: Place, bins: Place): Cover => ({
  x: spanAt(grip.x, before.x, start.x, at.x, bins.x),
  y: spanAt(grip.y, before.y, start.y, at.y, bins.y),
});

function spanAt(
  grip: Grip,
  before: Span | null,
  start: number,
  at: number,
  n: number,
): Span | null {
  if (n === 1) return null;
  switch (grip) {
    case 'draw':
      return drawn(start, at, n);
    case 'move':
      return before && moved(before, Math.round(at - start), n);
    case 'from':
      return before && between(Math.round(at), before.to, n);
    case 'to':
      return before && between(before.from, Math.round(at), n);
    case 'stay':
      return before;
  }
}

const within = (value: number, low: number, high: number): number =>
  Math.max(low, Math.min(high, value));

/** Every bin that the pointer has touched. */
function drawn(start: number, at: number, n: number): Span {
  const from = within(Math.floor(Math.min(start, at)), 0, n - 1);
  return { from, to: within(Math.ceil(Math.max(start, at)), from + 1, n) };
}

function moved({ from, to }: Span, by: number, n: number): Span {
  const step = within(by, -from, n - to);
  return { from: from + step, to: to + step };
}

/** An edge drawn past the other changes places with it; at least one bin stays covered. */
function between(a: number, b: number, n: number): Span {
  const from = within(Math.min(a, b), 0, n - 1);
  return { from, to: within(Math.max(a, b), Math.min(from + 1, n), n) };
}
