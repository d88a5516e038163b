import type { RankQuery } from '../session-types.ts';
import type { Held } from './held.ts';
import type { Sifter } from './order.ts';
import {
  ownColumns,
  tallyViews,
  type ViewCells,
  type ViewName,
  type ViewsAnswer,
  viewCells,
} from './tallies.ts';

/** The linked views of one scoring: each is counted under all conditions but those it sets itself. */
export function linkedViews(
  held: Held,
  sifter: Sifter,
): (query: Pick<RankQuery, 'on' | 'search'>) => Promise<ViewsAnswer> {
  let cells: Promise<ViewCells> | undefined;
  return async (query) => {
    cells ??= cellsOf(held);
    const except = (view: ViewName) => sifter.mask(query, ownColumns[view]);
    const masks = {
      all: await sifter.mask(query),
      histogram: await except('histogram'),
      density: await except('density'),
      matrix: await except('matrix'),
      bars: await except('bars'),
    };
    return tallyViews(await cells, masks);
  };
}

async function cellsOf(held: Held): Promise<ViewCells> {
  return viewCells({
    tier: await held.category('tier'),
    index: await held.number('index'),
    wetting_l_m2: await held.number('wetting_l_m2'),
    adequacy: await held.number('adequacy'),
    installed_used: await held.number('installed_used'),
    material: await held.category('material'),
    region: await held.category('region'),
  });
}
