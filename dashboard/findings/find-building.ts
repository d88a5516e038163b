import type { Analyst } from '../../analysis/session-types.ts';

type Asking = Pick<Analyst, 'order' | 'rows'>;

/**
 * Ordinal of the building with this id, null where there is none. Ordinals are in the order of the ids, so among the
 * buildings that a search finds the id is found by halving.
 */
export async function findBuilding(analyst: Asking, id: string): Promise<number | null> {
  if (id.trim() === '') return null;
  const found = (await analyst.order({ by: 'index', search: id.trim() })).sort();
  let [from, below] = [0, found.length];
  while (from < below) {
    const middle = (from + below) >> 1;
    const b = found[middle]!;
    const [row] = await analyst.rows(Int32Array.of(b));
    const at = `${row?.building_id}`;
    if (at === id) return b;
    if (at < id) from = middle + 1;
    else below = middle;
  }
  return null;
}

/** A building that a search offers. */
export interface Offered {
  readonly id: string;
  readonly about: string;
}

const offered = 12;

/** The first few buildings that a search finds, highest index first. */
export async function offerBuildings(analyst: Asking, search: string): Promise<Offered[]> {
  if (search.trim() === '') return [];
  const found = await analyst.order({ by: 'index', search: search.trim() });
  const rows = await analyst.rows(found.slice(0, offered));
  return rows.map((row) => ({
    id: `${row.building_id}`,
    about: [row.name, row.city].filter(Boolean).join(', '),
  }));
}
