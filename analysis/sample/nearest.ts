import type { Points } from './space.ts';

/** Finds the nearest of points that leave one by one. */
export interface Neighbours {
  /** The nearest other point that is still there; −1 where none is. Of equally near ones, one decided by the order given. */
  nearest(point: number): number;
  remove(point: number): void;
}

const leafSize = 8;

/** Reorders members[from … to) so that place k holds what sorting by value would put there (Hoare's selection). */
function select(
  members: Int32Array,
  value: (m: number) => number,
  from: number,
  to: number,
  k: number,
): void {
  let [low, high] = [from, to - 1];
  while (low < high) {
    const pivot = value(members[(low + high) >> 1]!);
    let [i, j] = [low, high];
    while (i <= j) {
      while (value(members[i]!) < pivot) i += 1;
      while (value(members[j]!) > pivot) j -= 1;
      if (i <= j) {
        const m = members[i]!;
        members[i++] = members[j]!;
        members[j--] = m;
      }
    }
    if (k <= j) high = j;
    else if (k >= i) low = i;
    else return;
  }
}

/** The dimension in which members[from … to) are spread widest. */
function widest({ at, dimensions }: Points, members: Int32Array, from: number, to: number): number {
  let [best, width] = [0, -1];
  for (let d = 0; d < dimensions; d += 1) {
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let k = from; k < to; k += 1) {
      const x = at[members[k]! * dimensions + d]!;
      if (x < low) low = x;
      if (x > high) high = x;
    }
    if (high - low > width) [best, width] = [d, high - low];
  }
  return best;
}

interface Node {
  readonly from: number;
  readonly to: number;
  readonly dimension: number;
  readonly split: number;
  readonly children: readonly [Node, Node] | null;
  /** Points below that are still there. */
  alive: number;
}

function build(points: Points, members: Int32Array, from: number, to: number): Node {
  if (to - from <= leafSize)
    return { from, to, dimension: 0, split: 0, children: null, alive: to - from };
  const dimension = widest(points, members, from, to);
  const middle = (from + to) >> 1;
  const value = (m: number) => points.at[m * points.dimensions + dimension]!;
  select(members, value, from, to, middle);
  const split = value(members[middle]!);
  const children = [
    build(points, members, from, middle),
    build(points, members, middle, to),
  ] as const;
  return { from, to, dimension, split, children, alive: to - from };
}

function squared({ at, dimensions }: Points, a: number, b: number): number {
  let sum = 0;
  for (let d = 0; d < dimensions; d += 1) {
    const gap = at[a * dimensions + d]! - at[b * dimensions + d]!;
    sum += gap * gap;
  }
  return sum;
}

/**
 * A k-d tree (Bentley 1975) over the points, built in the order given: shuffle it for equally near points to be told apart
 * at random.
 */
export function neighbours(points: Points, order: Int32Array): Neighbours {
  const { at, dimensions } = points;
  const members = order.slice();
  const root = build(points, members, 0, members.length);
  const placeOf = new Int32Array(points.n);
  members.forEach((m, k) => {
    placeOf[m] = k;
  });
  const gone = new Uint8Array(points.n);
  let [best, distance] = [-1, Number.POSITIVE_INFINITY];

  function scan({ from, to }: Node, point: number): void {
    for (let k = from; k < to; k += 1) {
      const m = members[k]!;
      if (m === point || gone[m]) continue;
      const d = squared(points, point, m);
      if (d < distance) [best, distance] = [m, d];
    }
  }

  function visit(node: Node, point: number): void {
    if (node.alive === 0 || distance === 0) return;
    const { children } = node;
    if (children === null) {
      scan(node, point);
      return;
    }
    const gap = at[point * dimensions + node.dimension]! - node.split;
    const [near, far] = gap < 0 ? children : [children[1], children[0]];
    visit(near, point);
    if (gap * gap < distance) visit(far, point);
  }

  return {
    nearest(point) {
      [best, distance] = [-1, Number.POSITIVE_INFINITY];
      visit(root, point);
      return best;
    },
    remove(point) {
      gone[point] = 1;
      const place = placeOf[point]!;
      for (let node: Node | null = root; node !== null; ) {
        node.alive -= 1;
        const children: readonly [Node, Node] | null = node.children;
        node = children?.[place < children[0].to ? 0 : 1] ?? null;
      }
    },
  };
}
