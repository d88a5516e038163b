import { tiers } from '../../analysis/session-types.ts';
import { sheetThemes, type ThemeName } from './theme.ts';
import { tierMarks } from './tier-marks.ts';

/** Room around a shape for its halo, CSS pixels. */
const margin = 2;
/** Width of one building's mark, CSS pixels. */
const alone = 12;
/** Widths of a mark of several buildings; of a hundred or more, of ten thousand or more. */
export const cellWidths = [20, 25, 30] as const;

/** A city is a dot of ink. */
const city = { path: 'M12 2A10 10 0 0 1 12 22A10 10 0 0 1 12 2Z', width: 4.5 };

export interface MarkImage {
  readonly image: ImageData;
  readonly pixelRatio: number;
}

interface Drawing {
  /** SVG path in a 24 × 24 box. */
  readonly path: string;
  readonly colour: string;
  readonly halo: string;
  /** CSS pixels. */
  readonly width: number;
  /** Share of the shape's area that is filled, from below, 0-1; one that is not filled to the brim keeps its outline. */
  readonly fill: number;
}

/**
 * What an image of the style shows, by its name: `light-0` one building of the first tier; `light-0-2-7` several of
 * them, at the largest size and filled to seven tenths; `light-0-2-` the same where none is scored; `light-city` the
 * city dot. Undefined for a name that is none of the map's.
 */
export function drawingOf(name: string): Drawing | undefined {
  const [, theme, what, size, tenth] =
    /^(light|dark)-(city|[0-4])(?:-([0-2])-(\d*))?$/.exec(name) ?? [];
  if (!theme) return undefined;
  const { halo, cityName } = sheetThemes[theme as ThemeName];
  if (what === 'city') return { ...city, colour: cityName, halo, fill: 1 };
  const mark = tierMarks[tiers[Number(what)]!];
  const colour = mark[theme as ThemeName];
  if (size === undefined) return { path: mark.path, colour, halo, width: alone, fill: 1 };
  return {
    path: mark.outline,
    colour,
    halo,
    width: cellWidths[Number(size)]!,
    fill: Number(tenth) / 10,
  };
}

/** The image of a name as a bitmap, drawn at the size it is shown so that it stays crisp. */
export function markImage(name: string, pixelRatio: number): MarkImage | undefined {
  const drawing = drawingOf(name);
  return drawing && { image: bitmap(drawing, pixelRatio), pixelRatio };
}

function bitmap({ path, colour, halo, width, fill }: Drawing, pixelRatio: number): ImageData {
  const side = Math.ceil((width + 2 * margin) * pixelRatio);
  const scale = (width * pixelRatio) / 24;
  const canvas = Object.assign(document.createElement('canvas'), { width: side, height: side });
  const context = canvas.getContext('2d', { willReadFrequently: true })!;
  context.translate(side / 2, side / 2);
  context.scale(scale, scale);
  context.translate(-12, -12);
  const shape = new Path2D(path);
  context.lineJoin = 'round';
  context.lineWidth = (1.6 * margin * pixelRatio) / scale;
  context.strokeStyle = context.fillStyle = halo;
  context.stroke(shape);
  context.fill(shape);
  context.fillStyle = colour;
  if (fill < 1) fillPartly(context, shape, colour, fill, pixelRatio / scale);
  else context.fill(shape, 'evenodd');
  return context.getImageData(0, 0, side, side);
}

/** The outline within the shape, and so much of it filled from below. */
function fillPartly(
  context: CanvasRenderingContext2D,
  shape: Path2D,
  colour: string,
  fill: number,
  px: number,
): void {
  const top = levelOf(context, shape, fill);
  context.clip(shape);
  context.lineWidth = 2.4 * px;
  context.strokeStyle = colour;
  context.stroke(shape);
  context.globalAlpha = 0.55;
  context.fillRect(0, top, 24, 24);
}

/** Height above which the rest of a shape lies, in its box of 24: a bob holds less in its tip than in its neck. */
function levelOf(context: CanvasRenderingContext2D, shape: Path2D, fill: number): number {
  const step = 0.5;
  const points: number[] = [];
  for (let y = 24 - step / 2; y > 0; y -= step) {
    for (let x = step / 2; x < 24; x += step) {
      if (isWithin(context, shape, x, y)) points.push(y);
    }
  }
  return points[Math.floor(fill * points.length)] ?? 0;
}

function isWithin(context: CanvasRenderingContext2D, shape: Path2D, x: number, y: number): boolean {
  const at = context.getTransform().transformPoint({ x, y });
  return context.isPointInPath(shape, at.x, at.y);
}
