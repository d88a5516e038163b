import { max, scaleLinear } from 'd3';
import type { DensityTally } from '../../analysis/sift/tally-density.ts';
import { digits } from '../parts/format.ts';
import { quantities, type Units } from '../parts/quantity.ts';
import { type Box, fieldOf, px, rectPath, type Tick } from './box.ts';

export interface DensityShape {
  /** Cells of equal depth of ink, faintest first. */
  readonly levels: readonly { readonly ink: number; readonly path: string }[];
  /** Cells that hold buildings of the portfolio, none of which passes. */
  readonly elsewhere: string;
  /** Single buildings as dots, where they are few. */
  readonly dots: string;
  readonly x: readonly Tick[];
  readonly y: readonly Tick[];
  /** Most buildings in one cell. */
  readonly most: number;
}

/** Depths of ink: by the logarithm of the count, for half of a portfolio may share a cell. */
const inks = [0.1, 0.22, 0.36, 0.52, 0.7, 0.9] as const;
/** Under single dots the cells are only a ground. */
const groundInks = inks.map((ink) => ink / 3);

const levelOf = (n: number, most: number): number =>
  most <= 1
    ? 1
    : Math.min(inks.length - 1, Math.floor((Math.log(n) / Math.log(most)) * inks.length));

/** Cells, dots and ticks of wetting across and drainage lacking upward. */
export function densityShape(tally: DensityTally, box: Box, units: Units): DensityShape {
  const most = max(tally.kept) ?? 0;
  const cell = cellPath(tally, box);
  const paths = inks.map(() => '');
  let elsewhere = '';
  tally.kept.forEach((n, at) => {
    if (n > 0) paths[levelOf(n, most)] += cell(at);
    else if (tally.whole[at]! > 0) elsewhere += cell(at);
  });
  const depth = tally.points ? groundInks : inks;
  return {
    levels: paths.map((path, level) => ({ ink: depth[level]!, path })),
    elsewhere,
    dots: tally.points ? dotsPath(tally, box) : '',
    x: wettingTicks(tally, box, units),
    y: lackingTicks(box),
    most,
  };
}

/** Adequacy grows downward: at the top nothing is there of the drainage asked for. */
function cellPath({ x, y }: DensityTally, box: Box): (at: number) => string {
  const columns = x.length - 1;
  const { width, height } = fieldOf(box);
  const [w, h] = [width / columns, height / (y.length - 1)];
  return (at) =>
    rectPath(box.left + (at % columns) * w, box.top + Math.floor(at / columns) * h, w, h);
}

/** One path of round dots: a line of no length with a round cap. */
function dotsPath({ x, y, points }: DensityTally, box: Box): string {
  const { width, height } = fieldOf(box);
  const across = scaleLinear([x[0]!, x.at(-1)!], [box.left, box.left + width]);
  const down = scaleLinear([y[0]!, y.at(-1)!], [box.top, box.top + height]);
  return Array.from(
    points?.x ?? [],
    (value, i) => `M${px(across(value))} ${px(down(points!.y[i]!))}h0`,
  ).join('');
}

function wettingTicks({ x }: DensityTally, box: Box, units: Units): Tick[] {
  const { times } = quantities.wetting[units];
  const across = scaleLinear(
    [x[0]! * times, x.at(-1)! * times],
    [box.left, box.left + fieldOf(box).width],
  );
  const ticks = across.ticks(5);
  const decimals = Number.isInteger(ticks[1] ?? 1) ? 0 : 1;
  return ticks.map((value) => ({ at: px(across(value)), word: digits(value, decimals) }));
}

const lackingTicks = (box: Box): Tick[] =>
  [0, 50, 100].map((percent) => ({
    at: px(box.top + fieldOf(box).height * (1 - percent / 100)),
    word: String(percent),
  }));
