import { tiers } from '../../analysis/session-types.ts';
import { sheetThemes, type ThemeName } from './theme.ts';
import { tierMarks } from './tier-marks.ts';

/** Widths of a mark in CSS pixels: one building, ten or more, a hundred or more under it. */
const widths = [12, 15, 19] as const;
/** Room around the shape for its halo, CSS pixels. */
const margin = 2;

/** A city is a dot of ink. */
const city = { path: 'M12 2A10 10 0 0 1 12 22A10 10 0 0 1 12 2Z', width: 4.5 };

export interface MarkImage {
  readonly name: string;
  readonly image: ImageData;
  readonly pixelRatio: number;
}

interface Drawing {
  readonly name: string;
  readonly path: string;
  readonly colour: string;
  readonly halo: string;
  /** CSS pixels. */
  readonly width: number;
}

/** What is drawn for one theme: `light-0-2` is the first tier at the largest size, `light-city` the city dot. */
export function drawings(theme: ThemeName): Drawing[] {
  const { halo, cityName } = sheetThemes[theme];
  const marks = tiers.flatMap((tier, t) =>
    widths.map((width, size) => ({
      name: `${theme}-${t}-${size}`,
      path: tierMarks[tier].path,
      colour: tierMarks[tier][theme],
      halo,
      width,
    })),
  );
  return [...marks, { name: `${theme}-city`, ...city, colour: cityName, halo }];
}

/** All images of both themes as bitmaps, drawn at the size they are shown so that they stay crisp. */
export function markImages(pixelRatio: number): MarkImage[] {
  return [...drawings('light'), ...drawings('dark')].map((drawing) => ({
    name: drawing.name,
    image: bitmap(drawing, pixelRatio),
    pixelRatio,
  }));
}

function bitmap({ path, colour, halo, width }: Drawing, pixelRatio: number): ImageData {
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
  context.fill(shape, 'evenodd');
  return context.getImageData(0, 0, side, side);
}
