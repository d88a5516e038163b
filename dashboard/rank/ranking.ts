import { createMemo, createResource, on } from 'solid-js';
import { indexOf } from '../../analysis/rank/cents.ts';
import { tiers } from '../../analysis/session-types.ts';
import { useDesk } from '../state/desk.ts';
import { queryOf } from '../state/page-state.ts';
import { createRowCache, type RankRow } from '../state/rows.ts';
import type { Opened } from '../state/session.ts';

/** What the table, the map and the opened building share about the ranking of the files that are open. */
export interface Ranking {
  readonly opened: Opened;
  /** Building ordinals that match, in order; the last known ones while new ones are on their way. */
  readonly order: () => Int32Array;
  readonly pending: () => boolean;
  readonly failed: () => string | null;
  readonly row: (b: number) => RankRow | undefined;
  readonly want: (ordinals: Int32Array) => void;
  /** Whether the table has had its first rows, or will have none. */
  readonly rowsStand: () => boolean;
}

const none = new Int32Array();

/** Only the newest question's answer is kept: a resource drops what an older question brings. */
export function createRanking(opened: () => Opened): Ranking {
  const { state, session } = useDesk();
  const query = createMemo(() => JSON.stringify(queryOf(state)));
  // Another scoring, and weights that are tried, bring another order for the same question.
  const asked = createMemo(() => ({
    query: query(),
    version: opened().version,
    live: session.live(),
  }));
  const [order] = createResource(asked, (one) => session.analyst.order(JSON.parse(one.query)));
  const version = createMemo(() => opened().version);
  const rows = createMemo(on(version, () => createRowCache(session.analyst)));
  const row = (b: number): RankRow | undefined => {
    const scored = rows().row(b);
    const live = session.live();
    if (!scored || !live) return scored;
    return {
      ...scored,
      index: numberOf(indexOf(live.cents[b]!)),
      rank: live.rank[b] || null,
      tier: tiers[live.tier[b] ?? -1] ?? null,
      // Those of the weights before; the new ones are worked out when the weights are settled.
      index_low: null,
      index_high: null,
      index_spread: null,
      tier_low: null,
      tier_high: null,
    };
  };
  return {
    get opened() {
      return opened();
    },
    order: () => (order.error ? none : (order.latest ?? none)),
    pending: () => order.loading,
    failed: () => (order.error ? String(order.error.message ?? order.error) : rows().failed()),
    row,
    want: (ordinals) => rows().want(ordinals),
    rowsStand: () =>
      rows().answered() || Boolean(order.error) || (!order.loading && order.latest?.length === 0),
  };
}

const numberOf = (value: number | undefined): number | null =>
  value === undefined || Number.isNaN(value) ? null : value;
