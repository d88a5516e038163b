import type { Band } from '../../analysis/bands.ts';
import { tiers } from '../../analysis/session-types.ts';
import type { ViewsAnswer } from '../../analysis/sift/tallies.ts';
import { perTier, sum } from '../../analysis/sift/tally-codes.ts';
import { digits, figureOf, noRecord } from '../parts/format.ts';
import type { Kind, Units } from '../parts/quantity.ts';
import { plainWord } from '../parts/words.ts';
import { amongOf, type Filters, rangeOf } from '../state/page-state.ts';

/**
 * The main reading of each chart as a sentence: what there is where nothing is chosen in it, else how many of the
 * buildings that the other filters leave are chosen.
 */

const n = (count: number): string => digits(count, 0);

export const wordOf = (word: string | null): string => (word === null ? noRecord : plainWord(word));

/** A range as words: *from 40 to 60 %*, *40 and over*, *under 40*. */
function rangeWords({ from, below }: Band, write: (value: number) => string, unit = ''): string {
  const whole = (value: number) => `${write(value)}${unit && ` ${unit}`}`;
  if (from === undefined) return `under ${whole(below ?? 0)}`;
  if (below === undefined) return `${whole(from)} and over`;
  return `from ${write(from)} to ${whole(below)}`;
}

/** Digits without needless zeros: 40, 42.5, 0.61. */
const short = (value: number, kind: Kind, units: Units): string =>
  figureOf(value, kind, units).digits.replace(/\.0+$|(\.\d*?)0+$/, '$1');

export const indexWords = (value: number): string => short(value, 'index', 'metric');

const wettingUnit = (units: Units): string => figureOf(0, 'wetting', units).unit;
export const wettingWords = (value: number, units: Units): string => short(value, 'wetting', units);

/** Drainage lacking, from the share that is there: `35 %`. */
export const lackingWords = (adequacy: number): string => `${Math.round((1 - adequacy) * 100)} %`;

/** Buildings that the other filters leave for each chart to choose among. */
export const leftFor = {
  histogram: ({ histogram }: ViewsAnswer): number => sum(histogram.kept) + histogram.none,
  density: ({ density }: ViewsAnswer): number => sum(density.kept) + density.none,
  matrix: ({ matrix }: ViewsAnswer): number => sum(matrix.kept),
  bars: ({ bars }: ViewsAnswer): number => sum(bars.kept),
};

export function indexReading(answer: ViewsAnswer, filters: Filters): string {
  const range = rangeOf(filters, 'index');
  if (range)
    return `${n(answer.shown)} of ${n(leftFor.histogram(answer))} have an index ${rangeWords(range, indexWords)}.`;
  const { kept, none } = answer.histogram;
  const inTier = (name: (typeof tiers)[number]) => {
    const tier = tiers.indexOf(name);
    return sum(
      Uint32Array.from({ length: kept.length / perTier }, (_, b) => kept[b * perTier + tier]!),
    );
  };
  // A reported leak without an index has a tier and no bin: tiers are counted here among those with an index.
  const indexed = n(sum(kept));
  const rest = none > 0 ? `; ${n(none)} without an index` : '';
  return `Of ${indexed} with an index ${n(inTier('First look'))} First look, ${n(inTier('Next look'))} Next look${rest}.`;
}

export function densityReading(answer: ViewsAnswer, filters: Filters, units: Units): string {
  const all = n(leftFor.density(answer));
  const wetting = rangeOf(filters, 'wetting_l_m2');
  const adequacy = rangeOf(filters, 'adequacy');
  if (!wetting && !adequacy)
    return `${halfLacking(answer)} of ${all} lack over half of the drainage asked for${without(answer)}.`;
  const parts = [
    ...(wetting
      ? [`wetting ${rangeWords(wetting, (v) => wettingWords(v, units), wettingUnit(units))}`]
      : []),
    ...(adequacy ? [`drainage lacking ${lackingRange(adequacy)}`] : []),
  ];
  return `${n(answer.shown)} of ${all} with ${parts.join(' and ')}.`;
}

const without = ({ density }: ViewsAnswer): string =>
  density.none > 0 ? `; ${n(density.none)} without these figures` : '';

/** Lacking runs against adequacy: its least is what is left above the upper end. */
function lackingRange({ from, below }: Band): string {
  if (from === undefined) return `over ${lackingWords(below ?? 0)}`;
  if (below === undefined) return `${lackingWords(from)} or less`;
  return `over ${lackingWords(below)}, up to ${lackingWords(from)}`;
}

/** Buildings in the rows of cells below an adequacy of one half, which is an edge. */
function halfLacking({ density }: ViewsAnswer): string {
  const rows = density.y.findIndex((edge) => edge >= 0.5);
  return n(sum(density.kept, 0, rows * (density.x.length - 1)));
}

export function matrixReading(answer: ViewsAnswer, filters: Filters): string {
  const { bands, words, kept, pressing } = answer.matrix;
  const left = leftFor.matrix(answer);
  if (filters.on.material || filters.on.installed_used)
    return `${n(answer.shown)} of ${n(left)} in the cells chosen.`;
  const most = Math.max(0, ...pressing);
  if (most === 0) return `None of ${n(left)} is First or Next look.`;
  const at = pressing.indexOf(most);
  const band = bands[at % (bands.length + 1)]?.label ?? 'era not on record';
  const word = words[Math.floor(at / (bands.length + 1))] ?? null;
  return `Most First or Next look: ${wordOf(word)}, ${band}: ${n(most)} of ${n(kept[at]!)}.`;
}

export function barsReading(answer: ViewsAnswer, filters: Filters): string {
  const left = leftFor.bars(answer);
  if (amongOf(filters, 'region').length + amongOf(filters, 'tier').length > 0)
    return `${n(answer.shown)} of ${n(left)} in the bars chosen.`;
  const { words, kept } = answer.bars;
  const first = sum(words.map((_, row) => kept[row * perTier]!));
  if (first === 0) return `None of ${n(left)} is First look.`;
  return `Most First look: ${wordOf(words[0] ?? null)}, ${n(kept[0]!)} of ${n(first)}.`;
}
