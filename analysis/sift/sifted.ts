import type { Engine } from '../engine/port.ts';
import type { Reranked } from '../live/live.ts';
import type { LiveAnswer } from '../session-types.ts';
import { type Held, heldColumns } from './held.ts';
import { once } from './kept.ts';
import { tried } from './leaned.ts';
import { linkedViews } from './linked.ts';
import { type Sifter, sifter } from './order.ts';
import { type Search, searcher } from './search.ts';
import { wettingByNeed } from './tallies.ts';
import type { DensityCells } from './tally-density.ts';

/** The ranking as columns at hand, to be ordered, filtered and counted. */
export interface Sifted extends Sifter {
  readonly held: Held;
  readonly views: ReturnType<typeof linkedViews>;
  /** The same under other weights. */
  readonly under: (reranked: Reranked) => { readonly sifted: Sifted; readonly answer: LiveAnswer };
}

/** What no weight changes: the words searched for, and the wetting and drainage of every building. */
interface Weightless {
  readonly search: Search;
  readonly density: () => Promise<DensityCells>;
}

/** Over the tables that the last `score` made of `n` buildings. */
export function siftedColumns(engine: Engine, n: number): Sifted {
  const held = heldColumns(engine, n);
  return siftedOver(held, {
    search: searcher(engine, held),
    density: once(async () =>
      wettingByNeed(await held.number('wetting_l_m2'), await held.number('adequacy')),
    ),
  });
}

function siftedOver(held: Held, weightless: Weightless): Sifted {
  const sift = sifter(held, weightless.search);
  return {
    ...sift,
    held,
    views: linkedViews(held, sift, weightless.density),
    under: (reranked) => {
      const { held: leaned, answer } = tried(held, reranked);
      return { sifted: siftedOver(leaned, weightless), answer };
    },
  };
}
