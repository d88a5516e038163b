/** The field of a chart within its drawing, px. */
export interface Box {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const margins = { left: 36, right: 8, top: 20, bottom: 30 } as const;

/** A drawing as wide as its column, so that type keeps its size. */
export const boxOf = (width: number): Box => ({
  width: Math.max(200, Math.round(width)),
  height: 148,
  ...margins,
});

export const fieldOf = (box: Box): { width: number; height: number } => ({
  width: box.width - box.left - box.right,
  height: box.height - box.top - box.bottom,
});

export interface Tick {
  readonly at: number;
  readonly word: string;
}

/** Tenths of a pixel: finer is noise in a path. */
export const px = (value: number): number => Math.round(value * 10) / 10;

export const rectPath = (x: number, y: number, width: number, height: number): string =>
  `M${px(x)} ${px(y)}h${px(width)}v${px(height)}h${px(-width)}z`;
