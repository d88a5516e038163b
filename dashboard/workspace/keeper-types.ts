import type { Opened } from './store.ts';
import type { Result, TroubleCode } from './trouble.ts';
import type { Change } from './workspace.ts';

/** How the open workspace stands. The page shows the sentence where there is one. */
export type KeepStatus =
  | { readonly kind: 'none' }
  | { readonly kind: 'kept'; readonly savedAt: string }
  | { readonly kind: 'saving' }
  | { readonly kind: 'reading'; readonly message: string }
  | { readonly kind: 'not kept'; readonly code: TroubleCode; readonly message: string };

export interface GivenFile {
  readonly role: string;
  readonly file: File;
}

/** The one workspace that this tab works on, kept as it changes. */
export interface Keeper {
  /** Null before one is opened or created. */
  readonly current: () => Opened | null;
  readonly status: () => KeepStatus;
  /** What was open last in this tab, else in this browser; null where there is none. */
  readonly resume: () => Promise<Result<Opened | null>>;
  readonly create: (name: string) => Promise<Opened>;
  readonly open: (id: string) => Promise<Result<Opened>>;
  /** Takes a workspace that another tab holds; answers it as that tab last saved it. */
  readonly takeOver: () => Promise<Result<Opened>>;
  /** What is open, unsaved changes included, goes on as a new workspace. */
  readonly keepAsCopy: (name: string) => Promise<Opened>;
  /** Refused while another tab holds it. */
  readonly remove: (id: string) => Promise<Result<null>>;
  /** Merges a change and saves after a short quiet time. Throws where nothing is open. */
  readonly keep: (change: Change) => void;
  /** Replaces the files and saves at once. */
  readonly keepFiles: (files: readonly GivenFile[]) => Promise<KeepStatus>;
  readonly flush: () => Promise<KeepStatus>;
  readonly toFile: () => Promise<Result<File>>;
  /** Opens a file as a new workspace: nothing kept is written over. */
  readonly fromFile: (file: File) => Promise<Result<Opened>>;
  /** The page is going away, perhaps for good: what waits is noted at once and saved if there is time. */
  readonly leaving: () => void;
  readonly close: () => Promise<void>;
}
