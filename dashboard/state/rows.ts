import { createSignal } from 'solid-js';
import type { Analyst } from '../../analysis/session-types.ts';
import type { Value } from '../parts/format.ts';
import { messageOf } from '../parts/message-of.ts';

export type RankRow = Readonly<Record<string, Value>>;

/** Rows fetched by the window and kept while they are likely to be seen again. */
export interface RowCache {
  /** The row of a building, or undefined while it is on its way. Reading it follows later arrivals. */
  readonly row: (b: number) => RankRow | undefined;
  /** Asks for the rows of these buildings; only the newest request is waited for. */
  readonly want: (ordinals: Int32Array) => void;
  readonly failed: () => string | null;
  /** Whether rows have come, or could not be had. */
  readonly answered: () => boolean;
}

const kept = 4000;

/** A new cache is made for every opening of files, so rows of other files can never be shown. */
export function createRowCache(analyst: Pick<Analyst, 'rows'>): RowCache {
  const rows = new Map<number, RankRow>();
  const [arrivals, setArrivals] = createSignal(0);
  const [failed, setFailed] = createSignal<string | null>(null);
  let busy = false;
  let next: Int32Array | null = null;

  const fetchNext = async (): Promise<void> => {
    const wanted = next ?? new Int32Array();
    next = null;
    const missing = wanted.filter((b) => !rows.has(b));
    keepFresh(rows, wanted);
    if (missing.length === 0) return;
    const fetched = await analyst.rows(missing);
    for (const [i, b] of missing.entries()) rows.set(b, fetched[i] ?? {});
    dropOldest(rows, kept);
    setArrivals((n) => n + 1);
    await fetchNext();
  };
  const want = (ordinals: Int32Array): void => {
    next = ordinals;
    if (busy) return;
    busy = true;
    fetchNext()
      .then(() => setFailed(null))
      .catch((error: unknown) => setFailed(messageOf(error)))
      .finally(() => {
        busy = false;
      });
  };
  const row = (b: number): RankRow | undefined => {
    arrivals();
    return rows.get(b);
  };
  return { row, want, failed, answered: () => arrivals() > 0 || failed() !== null };
}

/** A Map keeps the order of insertion: rows asked for again go to its young end. */
function keepFresh(rows: Map<number, RankRow>, wanted: Int32Array): void {
  for (const b of wanted) {
    const row = rows.get(b);
    if (row && rows.delete(b)) rows.set(b, row);
  }
}

function dropOldest(rows: Map<number, RankRow>, keep: number): void {
  for (const b of rows.keys()) {
    if (rows.size <= keep) return;
    rows.delete(b);
  }
}
