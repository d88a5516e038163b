import { createContext, useContext } from 'solid-js';
import type { LedgerRequest } from '../parts/ledger-request.ts';
import type { Opened } from '../workspace/store.ts';
import type { Held } from './held.ts';
import type { Keeping } from './keeping.ts';
import type { Session } from './session.ts';
import type { PageStore } from './store.ts';
import type { Survey } from './survey.ts';

/** What every view has at hand: the page's state, the session with the analysis, and the ledger's door. */
export interface Desk extends PageStore {
  readonly session: Session;
  /** The files at hand, whether they are open yet or not. */
  readonly held: () => Held;
  readonly hold: (change: (held: Held) => Held) => void;
  readonly keeping: Keeping;
  readonly survey: Survey;
  /** Reads the files at hand; the invented example where there is no building list among them. */
  readonly openHeld: () => Promise<boolean>;
  /** Puts another workspace in place of this one. */
  readonly openWorkspace: (opening: Promise<Opened | null>) => Promise<void>;
  readonly openExample: () => Promise<void>;
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
