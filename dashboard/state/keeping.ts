import { createEffect, createSignal, on } from 'solid-js';
import type { ColumnMap } from '../../analysis/mapping/column-map.ts';
import { sameHeadings } from '../../analysis/mapping/kept.ts';
import type { Edit, ReadReport, Role, SheetReading } from '../../analysis/session-types.ts';
import type { SettingsChanges } from '../../analysis/settings.ts';
import { createKeeper } from '../workspace/keeper.ts';
import type { Keeper, KeepStatus } from '../workspace/keeper-types.ts';
import { keepOnLeaving } from '../workspace/leaving.ts';
import { askToPersist } from '../workspace/persist.ts';
import { type Opened, openStore, type Store } from '../workspace/store.ts';
import { done, type Result } from '../workspace/trouble.ts';
import type { Listing } from '../workspace/workspace.ts';
import { type Held, nothingHeld } from './held.ts';

/** The workspace of this tab as the page sees it. */
export interface Keeping {
  readonly status: () => KeepStatus;
  /** Null while nothing of the user's own is open. */
  readonly current: () => Opened | null;
  /** Why the last wish could not be met, in words; null otherwise. */
  readonly trouble: () => string | null;
  /** What the browser says of how firmly it keeps things; null until asked. */
  readonly firmness: () => string | null;
  readonly list: () => Promise<readonly Listing[]>;
  readonly rename: (name: string) => void;
  readonly note: (notes: string) => void;
  readonly keepSettings: (changes: SettingsChanges) => void;
  readonly keepAddress: (address: string) => void;
  /** What a view keeps under a name of its own; undefined where it has kept nothing. */
  readonly more: (name: string) => unknown;
  readonly keepMore: (name: string, value: unknown) => void;
  readonly open: (id: string) => Promise<Opened | null>;
  readonly remove: (id: string) => Promise<void>;
  readonly copy: () => Promise<void>;
  readonly takeOver: () => Promise<Opened | null>;
  readonly toFile: () => Promise<File | null>;
  readonly fromFile: (file: File) => Promise<Opened | null>;
  readonly close: () => Promise<void>;
}

/** Opens the browser's storage and what was open last. */
export async function resumeWorkspace(): Promise<{
  store: Store;
  keeper: Keeper;
  resumed: Result<Opened | null>;
  status: () => KeepStatus;
}> {
  const [status, setStatus] = createSignal<KeepStatus>({ kind: 'none' });
  const store = openStore();
  const keeper = createKeeper(store, { onStatus: (next) => setStatus(next) });
  keepOnLeaving(keeper);
  return { store, keeper, resumed: await keeper.resume(), status };
}

export type Resumed = Awaited<ReturnType<typeof resumeWorkspace>>;

/** The page's hold on its workspace: what changes in `held` is kept, from the first file on. */
export function createKeeping(
  { store, keeper, status, resumed }: Resumed,
  held: () => Held,
): Keeping {
  const [current, setCurrent] = createSignal(keeper.current());
  const [trouble, setTrouble] = createSignal(resumed.ok ? null : resumed.trouble.message);
  const [firmness, setFirmness] = createSignal<string | null>(null);
  // What views keep over the invented example goes into the workspace that the user's first file begins.
  let loose: Readonly<Record<string, unknown>> = {};
  const settled = <T>(result: Result<T>): T | null => {
    loose = {};
    setTrouble(result.ok ? null : result.trouble.message);
    setCurrent(keeper.current());
    return result.ok ? result.value : null;
  };
  const begin = async (name: string) => {
    await keeper.create(name);
    keeper.keep({ more: loose });
    loose = {};
    setCurrent(keeper.current());
    const answer = await askToPersist(store);
    setFirmness(answer.firm ? null : answer.message);
  };
  let kept = held();
  createEffect(
    on(
      held,
      async (now) => {
        if (now === kept) return;
        const before = kept;
        kept = now;
        if (now.files.length === 0 && !keeper.current()) return;
        if (!keeper.current()) await begin(nameFor(now));
        const { maps, edits } = contentPart(now);
        keeper.keep({ maps, edits, more: { ...keeper.current()?.workspace.more, maps: now.maps } });
        if (sameFiles(before, now)) return;
        await keeper.keepFiles(now.files.map(({ role, file }) => ({ role, file })));
        setCurrent(keeper.current());
      },
      { defer: true },
    ),
  );
  const change = (part: Parameters<Keeper['keep']>[0]) => {
    if (!keeper.current()) return;
    keeper.keep(part);
    setCurrent(keeper.current());
  };
  return {
    status,
    current,
    trouble,
    firmness,
    list: async () => {
      const found = await store.list();
      setTrouble(found.ok ? null : found.trouble.message);
      return found.ok ? found.value : [];
    },
    rename: (name) => change({ name }),
    note: (notes) => change({ notes }),
    keepSettings: (settings) => change({ settings }),
    keepAddress: (address) => change({ address }),
    more: (name) => (keeper.current()?.workspace.more ?? loose)[name],
    keepMore: (name, value) => {
      const more = { ...(keeper.current()?.workspace.more ?? loose), [name]: value };
      if (keeper.current()) change({ more });
      else loose = more;
    },
    open: async (id) => settled(await keeper.open(id)),
    remove: async (id) => void settled(await keeper.remove(id)),
    copy: async () => {
      const name = keeper.current()?.workspace.name ?? '';
      settled(done(await keeper.keepAsCopy(`${name}, copy`)));
    },
    takeOver: async () => settled(await keeper.takeOver()),
    toFile: async () => settled(await keeper.toFile()),
    fromFile: async (file) => settled(await keeper.fromFile(file)),
    close: async () => {
      await keeper.close();
      settled(done(null));
    },
  };
}

const nameFor = ({ files }: Held): string =>
  (files.find(({ role }) => role === 'buildings') ?? files[0])!.file.name.replace(/\.[^.]+$/, '');

const sameFiles = (a: Held, b: Held): boolean =>
  a.files.length === b.files.length &&
  a.files.every(({ file, role }, i) => file === b.files[i]!.file && role === b.files[i]!.role);

/** What of the files at hand is kept beside their contents. */
const contentPart = ({ files, edits }: Held) => ({
  maps: Object.fromEntries(files.map(({ file, reading }) => [file.name, reading])),
  edits,
});

/** The files at hand as a workspace holds them. */
export function heldIn({ workspace, files }: Opened): Held {
  const kept = workspace.more.maps;
  return {
    files: workspace.files.map(({ role, name }, i) => ({
      file: files[i]!,
      role: role as Role,
      reading: (workspace.maps[name] ?? {}) as SheetReading,
    })),
    maps: Array.isArray(kept) ? (kept as ColumnMap[]) : nothingHeld.maps,
    edits: workspace.edits as Edit[],
  };
}

/** Keeps the maps by which files were read, one for each set of headings, the newest. */
export function withMapsOf(held: Held, { files }: ReadReport): Held {
  const used = files.flatMap(({ map }) => map ?? []);
  const headings = ({ columns }: ColumnMap) => columns.map(({ heading }) => heading);
  const older = held.maps.filter((map) => !used.some((one) => sameHeadings(map, headings(one))));
  const unique = used.filter(
    (map, i) => used.findIndex((one) => sameHeadings(one, headings(map))) === i,
  );
  return { ...held, maps: [...older, ...unique] };
}
