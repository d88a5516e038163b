import { bandsOf, eraBands, heightBands } from '../bands.ts';
import { tiers } from '../session-types.ts';
import type { Dimension, ExposureColumns } from './types.ts';

/** The level of every line in one dimension, 0 … size − 1; −1 is no record. Tiers have none: *Not scored* is a tier. */
interface Levels {
  readonly codes: ArrayLike<number>;
  readonly size: number;
}

const levelsBy: Readonly<Record<Dimension, (columns: ExposureColumns) => Levels>> = {
  tier: ({ tier }) => ({ codes: tier, size: tiers.length }),
  region: ({ region }) => ({ codes: region.codes, size: region.words.length }),
  material: ({ material }) => ({ codes: material.codes, size: material.words.length }),
  currency: ({ currency }) => ({ codes: currency.codes, size: currency.words.length }),
  height: ({ heightM }) => ({ codes: bandsOf(heightM, heightBands), size: heightBands.length }),
  era: ({ installed }) => ({ codes: bandsOf(installed, eraBands), size: eraBands.length }),
};

/** The combinations of levels that occur among some lines, in the order of the levels, no record last. */
export interface Grouping {
  readonly n: number;
  /** Group of each line of `shown`. */
  readonly of: Int32Array;
  /** Level of each group, by dimension; −1 is no record. */
  readonly levels: readonly Int32Array[];
}

export function grouped(
  columns: ExposureColumns,
  shown: Int32Array,
  by: readonly Dimension[],
): Grouping {
  const levels = by.map((dimension) => levelsBy[dimension](columns));
  const keys = new Float64Array(shown.length);
  for (const { codes, size } of levels) {
    for (let i = 0; i < shown.length; i++) {
      const code = codes[shown[i]!]!;
      keys[i] = keys[i]! * (size + 1) + (code < 0 ? size : code);
    }
  }
  return groupsOf(
    keys,
    levels.map(({ size }) => size),
  );
}

function groupsOf(keys: Float64Array, sizes: readonly number[]): Grouping {
  const distinct = Float64Array.from(new Set(keys)).sort();
  const place = new Map(Array.from(distinct, (key, group) => [key, group]));
  const of = new Int32Array(keys.length);
  for (let i = 0; i < of.length; i++) of[i] = place.get(keys[i]!)!;
  return {
    n: distinct.length,
    of,
    levels: sizes.map((size, d) => {
      const step = sizes.slice(d + 1).reduce((product, below) => product * (below + 1), 1);
      return Int32Array.from(distinct, (key) => {
        const at = Math.floor(key / step) % (size + 1);
        return at === size ? -1 : at;
      });
    }),
  };
}
