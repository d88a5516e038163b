/** Rain at nodes, rows from the north; (0, 0) is at `west`, `north`. */
export interface RainNodes {
  readonly width: number;
  readonly height: number;
  readonly west: number;
  readonly north: number;
  /** Degrees to the next node east, and to the next south (negative). */
  readonly stepX: number;
  readonly stepY: number;
  readonly mm: ArrayLike<number>;
}

/** Gives a node without data the mean of its neighbours, once, so that shading meets the coast of a land-only grid. */
export function grownByOne(nodes: RainNodes): RainNodes {
  const { width, height, mm } = nodes;
  const grown = Float32Array.from(mm);
  for (let i = 0; i < grown.length; i++) {
    if (Number.isNaN(mm[i]!)) grown[i] = meanAround(mm, width, height, i);
  }
  return { ...nodes, mm: grown };
}

function meanAround(mm: ArrayLike<number>, width: number, height: number, i: number): number {
  const [column, row] = [i % width, Math.floor(i / width)];
  let [sum, n] = [0, 0];
  for (let y = Math.max(0, row - 1); y <= Math.min(height - 1, row + 1); y++) {
    for (let x = Math.max(0, column - 1); x <= Math.min(width - 1, column + 1); x++) {
      const value = mm[y * width + x]!;
      if (Number.isNaN(value)) continue;
      sum += value;
      n += 1;
    }
  }
  return n > 0 ? sum / n : Number.NaN;
}

/**
 * Puts `factor` − 1 nodes between each two by the bilinear rule that also samples the rain at buildings: a line on the
 * map passes where the figures say it does.
 */
export function filledBetween(nodes: RainNodes, factor: number): RainNodes {
  if (factor <= 1) return nodes;
  const width = (nodes.width - 1) * factor + 1;
  const height = (nodes.height - 1) * factor + 1;
  const mm = new Float32Array(width * height);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      mm[row * width + column] = bilinear(nodes, column / factor, row / factor);
    }
  }
  return { ...nodes, width, height, stepX: nodes.stepX / factor, stepY: nodes.stepY / factor, mm };
}

/** Bilinear value at a position counted in nodes; NaN where a node with weight has none. */
export function bilinear({ width, height, mm }: RainNodes, x: number, y: number): number {
  const left = Math.min(Math.floor(x), Math.max(0, width - 2));
  const top = Math.min(Math.floor(y), Math.max(0, height - 2));
  const [u, v] = [x - left, y - top];
  const at = top * width + left;
  const weighted = (weight: number, i: number) => (weight === 0 ? 0 : weight * mm[i]!);
  return (
    weighted((1 - u) * (1 - v), at) +
    weighted(u * (1 - v), at + 1) +
    weighted((1 - u) * v, at + width) +
    weighted(u * v, at + width + 1)
  );
}
