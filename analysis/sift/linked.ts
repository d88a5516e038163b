import type { RankQuery } from '../session-types.ts';
import type { Held } from './held.ts';
import { once } from './kept.ts';
import type { Sifter } from './order.ts';
import {
  ownColumns,
  tallyViews,
  type ViewColumns,
  type ViewName,
  type ViewsAnswer,
  viewCells,
} from './tallies.ts';
import type { DensityCells } from './tally-density.ts';

/** The linked views of one scoring: each is counted under all conditions but those it sets itself. */
export function linkedViews(
  held: Held,
  sifter: Sifter,
  density: () => Promise<DensityCells>,
): (query: Pick<RankQuery, 'on' | 'search'>) => Promise<ViewsAnswer> {
  const cells = once(async () => viewCells(await columnsOf(held), await density()));
  return async (query) => {
    const except = (view: ViewName) => sifter.mask(query, ownColumns[view]);
    const masks = {
      all: await sifter.mask(query),
      histogram: await except('histogram'),
      density: await except('density'),
      matrix: await except('matrix'),
      bars: await except('bars'),
    };
    return tallyViews(await cells(), masks);
  };
}

async function columnsOf(held: Held): Promise<ViewColumns> {
  return {
    tier: await held.category('tier'),
    index: await held.number('index'),
    installed_used: await held.number('installed_used'),
    material: await held.category('material'),
    region: await held.category('region'),
  };
}
