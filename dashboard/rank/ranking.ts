import { createMemo, createResource } from 'solid-js';
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
}

const none = new Int32Array();

/** Only the newest question's answer is kept: a resource drops what an older question brings. */
export function createRanking(opened: Opened): Ranking {
  const { state, session } = useDesk();
  const query = createMemo(() => JSON.stringify(queryOf(state)));
  const [order] = createResource(query, (text) => session.analyst.order(JSON.parse(text)));
  const rows = createRowCache(session.analyst);
  return {
    opened,
    order: () => (order.error ? none : (order.latest ?? none)),
    pending: () => order.loading,
    failed: () => (order.error ? String(order.error.message ?? order.error) : rows.failed()),
    row: rows.row,
    want: rows.want,
  };
}
