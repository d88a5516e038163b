import { tiers } from '../../analysis/session-types.ts';
import {
  tallyViews,
  type ViewColumns,
  type ViewMasks,
  type ViewsAnswer,
  viewCells,
  wettingByNeed,
} from '../../analysis/sift/tallies.ts';

const materials = [
  'adhered_stone',
  'eifs',
  'fiber_cement',
  'one_coat_stucco',
  'stucco',
  'vinyl',
  'wood',
];
const regions = ['Florida', 'Georgia', 'Ohio', 'Oregon', 'Texas', 'Utah', 'Washington', 'Wyoming'];

/** Sixty buildings by plain arithmetic: every tier, one in ten without an index, one in twelve without a year. */
const n = 60;
const at = <T>(make: (b: number) => T) => Array.from({ length: n }, (_, b) => make(b));
const index = Float64Array.from(at((b) => (b % 10 === 9 ? Number.NaN : (b * 37) % 100)));
const tierOf = (x: number) => (x >= 40 ? 0 : x >= 25 ? 1 : x >= 8 ? 2 : x >= 0 ? 3 : 4);

const columns: ViewColumns = {
  tier: { codes: Int32Array.from(index, tierOf), words: tiers },
  index,
  installed_used: Float64Array.from(at((b) => (b % 12 === 5 ? Number.NaN : 1960 + b))),
  material: {
    codes: Int32Array.from(at((b) => (b % 9) - 1 - (b % 9 > 7 ? 1 : 0))),
    words: materials,
  },
  region: { codes: Int32Array.from(at((b) => (b * b) % regions.length)), words: regions },
};

const density = wettingByNeed(
  Float64Array.from(at((b) => (b % 10 === 9 ? Number.NaN : 30 + ((b * 53) % 311)))),
  Float64Array.from(at((b) => (b % 10 === 9 ? Number.NaN : ((b * 7) % 21) / 20))),
);

const open: ViewMasks = {
  all: null,
  histogram: null,
  density: null,
  matrix: null,
  bars: null,
};

export const answerOf = (masks: Partial<ViewMasks> = {}): ViewsAnswer =>
  tallyViews(viewCells(columns, density), { ...open, ...masks });

/** Buildings with an index from 25 to below 60. */
export const middling: Uint8Array = Uint8Array.from(index, (x) => (x >= 25 && x < 60 ? 1 : 0));
