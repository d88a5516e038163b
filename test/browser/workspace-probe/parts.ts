import { upgrades } from '../../../dashboard/workspace/database.ts';
import { digestOf } from '../../../dashboard/workspace/digest.ts';
import { holdWorkspace, takeWorkspace } from '../../../dashboard/workspace/hold.ts';
import { createKeeper } from '../../../dashboard/workspace/keeper.ts';
import { keepOnLeaving } from '../../../dashboard/workspace/leaving.ts';
import { askToPersist } from '../../../dashboard/workspace/persist.ts';
import { openStore } from '../../../dashboard/workspace/store.ts';
import {
  emptyContent,
  newWorkspace,
  type Workspace,
} from '../../../dashboard/workspace/workspace.ts';
import { sweepScratch } from '../../../dashboard/workspace/zip/scratch.ts';

export const openStoreAt = (name: string) => openStore({ name });

/** A workspace and the contents of its files, from texts by role. */
async function workspaceWith(name: string, texts: Readonly<Record<string, string>>) {
  const files = Object.entries(texts).map(
    ([role, text]) => [role, new File([text], `${role}.csv`, { type: 'text/csv' })] as const,
  );
  const kept = await Promise.all(
    files.map(async ([role, file]) => ({
      role,
      name: file.name,
      type: file.type,
      size: file.size,
      modified: file.lastModified,
      sha256: await digestOf(file),
    })),
  );
  const contents = new Map(kept.map(({ sha256 }, i) => [sha256, files[i]![1]]));
  const workspace: Workspace = newWorkspace({ ...emptyContent(name), files: kept });
  return { workspace, contents };
}

/** Digests of the contents that the database holds. */
async function contentKeys(name: string): Promise<string[]> {
  const db = await new Promise<IDBDatabase>((resolve, reject) => {
    const request = indexedDB.open(name);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  const keys = await new Promise<string[]>((resolve) => {
    const request = db.transaction('content').objectStore('content').getAllKeys();
    request.onsuccess = () => resolve(request.result as string[]);
  });
  db.close();
  return keys;
}

export const parts = {
  openStore,
  upgrades,
  digestOf,
  createKeeper,
  keepOnLeaving,
  holdWorkspace,
  takeWorkspace,
  askToPersist,
  sweepScratch,
  workspaceWith,
  contentKeys,
};
