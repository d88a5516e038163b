import { digestOf } from './digest.ts';
import { type Hold, holdWorkspace, takeWorkspace } from './hold.ts';
import type { GivenFile, Keeper, KeepStatus } from './keeper-types.ts';
import { lastOpened, remember } from './last-open.ts';
import { createSaver, type Pace } from './saver.ts';
import type { Opened, Store } from './store.ts';
import { done, known, type Result, type TroubleCode } from './trouble.ts';
import { forgetUnsaved, noteUnsaved, unsavedOf } from './unsaved.ts';
import {
  type Change,
  type Content,
  contentFrom,
  contentOf,
  emptyContent,
  type KeptFile,
  newWorkspace,
  type Workspace,
} from './workspace.ts';
import { sweepScratch } from './zip/scratch.ts';

export interface KeeperOptions extends Partial<Pace> {
  readonly onStatus?: (status: KeepStatus) => void;
}

const inAnotherTab =
  'This workspace is open in another tab. It is shown here for reading: changes made here are not saved. Take it over to work in this tab.';
const takenOver =
  'This workspace was taken over in another tab. What was changed here before was saved; changes made here from now on are not. Take it over again to work in this tab.';
const takenUnsaved =
  'This workspace was taken over in another tab before the last changes made here were saved. Keep it as a copy or save it to a file if they matter.';

/** What this tab works on. `hold` is null while reading only. */
interface Held {
  workspace: Workspace;
  files: readonly File[];
  contents: ReadonlyMap<string, Blob>;
  hold: Hold | null;
}

export function createKeeper(store: Store, options: KeeperOptions = {}): Keeper {
  let held: Held | null = null;
  let status: KeepStatus = { kind: 'none' };
  const tell = (next: KeepStatus): KeepStatus => {
    status = next;
    options.onStatus?.(next);
    return next;
  };
  const saver = createSaver(save, {
    quiet: options.quiet ?? 500,
    longest: options.longest ?? 5_000,
  });

  async function save(): Promise<boolean> {
    const mine = held;
    if (!mine?.hold) return false;
    const saved = await store.save(mine.workspace, mine.contents);
    if (held !== mine) return saved.ok;
    if (!saved.ok) {
      tell({ kind: 'not kept', ...saved.trouble });
      return false;
    }
    const { version, savedAt } = saved.value;
    // Only the stamp: the content may have changed while this save was under way.
    mine.workspace = { ...mine.workspace, version, savedAt };
    if (!saver.waiting()) {
      forgetUnsaved(mine.workspace.id);
      tell({ kind: 'kept', savedAt });
    }
    return true;
  }

  const opened = (): Opened | null => held && { workspace: held.workspace, files: held.files };
  const must = (): Held => {
    if (!held) throw new Error('no workspace is open');
    return held;
  };
  const onTaken = (id: string) => async (byForce: boolean) => {
    if (held?.workspace.id !== id) return;
    if (!byForce) await saver.flush();
    if (held?.workspace.id !== id) return;
    const lost = saver.waiting();
    saver.stop();
    held.hold = null;
    tell({ kind: 'reading', message: lost ? takenUnsaved : takenOver });
  };
  const noteWaiting = (): void => {
    if (!held?.hold || !(saver.waiting() || saver.busy())) return;
    const { id, version } = held.workspace;
    const { files: _, ...change } = contentOf(held.workspace);
    noteUnsaved(id, { from: version, to: version + (saver.busy() ? 1 : 0), change });
  };
  const letGo = async (): Promise<void> => {
    await saver.flush();
    noteWaiting();
    saver.stop();
    held?.hold?.release();
    held = null;
  };
  const adopt = (from: Opened, hold: Hold | null): Opened => {
    held = { ...from, contents: contentsOf(from), hold };
    remember(store, from.workspace.id);
    tell(
      hold
        ? { kind: 'kept', savedAt: from.workspace.savedAt }
        : { kind: 'reading', message: inAnotherTab },
    );
    if (hold) restoreUnsaved();
    return opened()!;
  };
  /** Lays what the last page had no time to save over what is stored. */
  const restoreUnsaved = (): void => {
    const { workspace } = must();
    const change = unsavedOf(workspace.id, workspace.version);
    if (!change) return;
    const merged = contentFrom({ ...contentOf(workspace), ...change, files: workspace.files }, '');
    if (merged.ok) keep(merged.value);
  };
  const begin = async (content: Content, files: readonly File[]): Promise<Opened> => {
    const workspace = newWorkspace(content);
    const hold = await holdWorkspace(workspace.id, onTaken(workspace.id));
    await letGo();
    adopt({ workspace, files }, hold);
    tell({ kind: 'saving' });
    saver.mark();
    await saver.flush();
    return opened()!;
  };
  const open = async (id: string): Promise<Result<Opened>> => {
    if (held?.workspace.id === id) await letGo();
    const hold = await holdWorkspace(id, onTaken(id));
    return settle(id, hold);
  };
  const settle = async (id: string, hold: Hold | null): Promise<Result<Opened>> => {
    const found = await store.open(id);
    if (!found.ok) {
      hold?.release();
      return found;
    }
    await letGo();
    return done(adopt(found.value, hold));
  };
  const keep = (change: Change): void => {
    const mine = must();
    mine.workspace = { ...mine.workspace, ...change };
    if (!mine.hold) return;
    saver.mark();
    tell({ kind: 'saving' });
  };
  const flush = async (): Promise<KeepStatus> => {
    await saver.flush();
    return status;
  };

  return {
    current: opened,
    status: () => status,
    resume: async () => {
      void sweepScratch(Date.now());
      const id = await lastOpened(store);
      if (!id) return done(null);
      const found = await open(id);
      return !found.ok && found.trouble.code === 'gone' ? done(null) : found;
    },
    create: (name) => begin(emptyContent(name), []),
    open,
    takeOver: async () => {
      const { id } = must().workspace;
      return settle(id, await takeWorkspace(id, onTaken(id)));
    },
    keepAsCopy: (name) => {
      const { workspace, files } = must();
      return begin({ ...contentOf(workspace), name }, files);
    },
    remove: async (id) => {
      if (held?.workspace.id === id) {
        saver.stop();
        await letGo();
        tell({ kind: 'none' });
      }
      const hold = await holdWorkspace(id, () => {});
      if (!hold) return known('held elsewhere');
      forgetUnsaved(id);
      return store.remove(id).finally(hold.release);
    },
    keep,
    keepFiles: async (given) => {
      const mine = must();
      const kept = await Promise.all(given.map(keptFile)).catch((cause: unknown) => cause);
      if (!Array.isArray(kept)) return tell({ kind: 'not kept', ...unreadable(given) });
      if (held !== mine) return status;
      mine.files = given.map(({ file }) => file);
      mine.workspace = { ...mine.workspace, files: kept };
      mine.contents = contentsOf(mine);
      keep({});
      return flush();
    },
    flush,
    toFile: async () => {
      const { workspace, files } = must();
      const { writeWorkspaceFile } = await import('./one-file.ts');
      return writeWorkspaceFile(workspace, files);
    },
    fromFile: async (file) => {
      const { readWorkspaceFile } = await import('./one-file.ts');
      const read = await readWorkspaceFile(file);
      return read.ok ? done(await begin(read.value.content, read.value.files)) : read;
    },
    leaving: () => {
      noteWaiting();
      if (held?.hold) void saver.flush();
    },
    close: async () => {
      await letGo();
      tell({ kind: 'none' });
    },
  };
}

const keptFile = async ({ role, file }: GivenFile): Promise<KeptFile> => ({
  role,
  name: file.name,
  type: file.type,
  size: file.size,
  modified: file.lastModified,
  sha256: await digestOf(file),
});

const contentsOf = ({ workspace, files }: Opened): ReadonlyMap<string, Blob> =>
  new Map(workspace.files.map((kept, i) => [kept.sha256, files[i]!]));

function unreadable(given: readonly GivenFile[]): { code: TroubleCode; message: string } {
  const names = given.map(({ file }) => `“${file.name}”`).join(', ');
  const message = `One of the files ${names} can no longer be read: it was moved, changed or removed after it was given. Give it again.`;
  return { code: 'content missing', message };
}
