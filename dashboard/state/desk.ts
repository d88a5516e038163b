import { createContext, useContext } from 'solid-js';
import type { LedgerRequest } from '../parts/ledger-request.ts';
import type { Session } from './session.ts';
import type { PageStore } from './store.ts';

/** What every view has at hand: the page's state, the session with the analysis, and the ledger's door. */
export interface Desk extends PageStore {
  readonly session: Session;
  readonly dark: () => boolean;
  /** Rows are stacked and controls folded. */
  readonly narrow: () => boolean;
  /** There is room for the map beside the whole table; otherwise one of the two is shown. */
  readonly beside: () => boolean;
  readonly ledger: () => LedgerRequest | null;
  readonly openLedger: (request: LedgerRequest) => void;
  readonly closeLedger: () => void;
}

const DeskContext = createContext<Desk>();

export const DeskProvider = DeskContext.Provider;

/** Throws outside the page: a mistake in our code. */
export function useDesk(): Desk {
  const desk = useContext(DeskContext);
  if (!desk) throw new Error('a view was used outside the page');
  return desk;
}
