import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { chromiumPath, launch } from './chromium.ts';
import { serveWorkspaceProbe } from './workspace-probe/serve.ts';

let browser: Browser;
let server: Awaited<ReturnType<typeof serveWorkspaceProbe>>;
let context: BrowserContext;

beforeAll(async () => {
  server = await serveWorkspaceProbe();
  browser = await launch();
});
afterEach(async () => {
  await Promise.all(browser.contexts().map((each) => each.close()));
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

/** A tab of a browser that keeps nothing from other tests. */
async function firstTab(): Promise<Page> {
  context = await browser.newContext();
  return tab(context);
}

async function tab(within: BrowserContext): Promise<Page> {
  const page = await within.newPage();
  await page.goto(server.origin);
  await page.waitForFunction(() => window.keeper);
  return page;
}

/** Creates a workspace with a building list and everything else that a workspace keeps. */
const fill = (page: Page): Promise<string> =>
  page.evaluate(async () => {
    const { workspace } = await window.keeper.create('Harbour blocks');
    window.keeper.keep({
      maps: { 'list.csv': { building_id: 'Ref' } },
      settings: { as_of: 2026 },
      edits: [{ file: 'list.csv', row: 4, cells: { latitude: '47.1' } }],
      notes: 'Ask for the drawings of block 3.',
      address: '#/rank?tier=First+look',
      more: { sample: { seed: 7 } },
    });
    const file = new File(['Ref,lat\n1,47\n'], 'list.csv', {
      type: 'text/csv',
      lastModified: 5e11,
    });
    await window.keeper.keepFiles([{ role: 'buildings', file }]);
    return workspace.id;
  });

/** All that the open workspace holds, with the text of its files. */
const held = (page: Page) =>
  page.evaluate(async () => {
    const { workspace, files } = window.keeper.current()!;
    const texts = await Promise.all(files.map((file) => file.text()));
    const about = files.map(({ name, type, lastModified }) => ({ name, type, lastModified }));
    return { workspace, about, texts };
  });

const resume = (page: Page) => page.evaluate(() => window.keeper.resume().then(({ ok }) => ok));
const status = (page: Page) => page.evaluate(() => window.keeper.status());

describe('a workspace', () => {
  test('is whole after a reload: files, maps, settings, edits, notes and address', async () => {
    const page = await firstTab();
    await fill(page);
    const before = await held(page);
    await page.reload();
    await page.waitForFunction(() => window.keeper);
    expect(await resume(page)).toBe(true);
    expect(await held(page)).toEqual(before);
    expect(before.texts).toEqual(['Ref,lat\n1,47\n']);
    expect((await status(page)).kind).toBe('kept');
  });

  test('is whole after the browser was closed and started again', async () => {
    const directory = await mkdtemp(join(tmpdir(), 'rainledger-profile-'));
    const start = () =>
      chromium.launchPersistentContext(directory, {
        executablePath: chromiumPath(),
        args: ['--no-sandbox', '--no-first-run', '--disable-background-networking'],
      });
    try {
      const first = await start();
      const page = await tab(first);
      await fill(page);
      const before = await held(page);
      await first.close();
      const second = await start();
      const later = await tab(second);
      expect(await resume(later)).toBe(true);
      expect(await held(later)).toEqual(before);
      await second.close();
    } finally {
      await rm(directory, { recursive: true, force: true });
    }
  });

  test('keeps a change made in the last moment before the page is left', async () => {
    const page = await firstTab();
    await fill(page);
    await page.evaluate(() => {
      window.keeper.keep({ notes: 'typed just before' });
      location.reload();
    });
    await page.waitForFunction(() => window.keeper && window.heard.length === 0);
    await resume(page);
    expect((await held(page)).workspace.notes).toBe('typed just before');
    await page.evaluate(() => window.keeper.flush());
    expect(await page.evaluate(() => localStorage.length)).toBe(0);
  });

  test('survives a tab that is killed: what was saved is there and the tab’s hold is gone', async () => {
    const page = await firstTab();
    await fill(page);
    const cdp = await context.newCDPSession(page);
    const crashed = page.waitForEvent('crash');
    cdp.send('Page.crash').catch(() => {});
    await crashed;
    const next = await tab(context);
    expect(await resume(next)).toBe(true);
    expect((await held(next)).workspace.notes).toBe('Ask for the drawings of block 3.');
    expect((await status(next)).kind).toBe('kept');
  });

  test('goes through one file and back without a difference, as a workspace of its own', async () => {
    const page = await firstTab();
    const id = await fill(page);
    const before = await held(page);
    const name = await page.evaluate(async () => {
      const written = await window.keeper.toFile();
      if (!written.ok) throw new Error(written.trouble.message);
      await window.keeper.fromFile(written.value);
      return written.value.name;
    });
    const after = await held(page);
    expect(name).toBe('Harbour blocks.rainledger');
    const { id: newId, savedAt, ...content } = after.workspace;
    expect({
      ...content,
      id,
      savedAt: before.workspace.savedAt,
      version: before.workspace.version,
    }).toEqual(before.workspace);
    expect(newId).not.toBe(id);
    expect(savedAt).not.toBe('');
    expect([after.about, after.texts]).toEqual([before.about, before.texts]);
    const names = await page.evaluate(async () => {
      const list = await window.store.list();
      return list.ok && list.value.map((each) => each.name);
    });
    expect(names).toEqual(['Harbour blocks', 'Harbour blocks']);
  });
});

test('a large content goes through one file over the disk, and what it left there is swept once it is old', async () => {
  const page = await firstTab();
  const outcome = await page.evaluate(async () => {
    const { keeper, kept } = window;
    const bytes = Uint8Array.from({ length: 12_000_000 }, (_, i) => (i * i) >> 9);
    await keeper.create('Large');
    await keeper.keepFiles([{ role: 'rain', file: new File([bytes], 'rain.tif') }]);
    const written = await keeper.toFile();
    const opened = written.ok ? await keeper.fromFile(written.value) : null;
    if (!opened?.ok) throw new Error('not opened');
    const back = opened.value.files[0]!;
    const same = (await kept.digestOf(back)) === (await kept.digestOf(new Blob([bytes])));
    const count = async () => {
      const root = await navigator.storage.getDirectory();
      let n = 0;
      for await (const _ of (await root.getDirectoryHandle('scratch')).keys()) n += 1;
      return n;
    };
    const counts = [await count()];
    await kept.sweepScratch(Date.now());
    counts.push(await count());
    await kept.sweepScratch(Date.now() + 2 * 86_400_000);
    counts.push(await count());
    const stored = await window.store.open(opened.value.workspace.id);
    const size = stored.ok && (await stored.value.files[0]!.arrayBuffer()).byteLength;
    return { same, counts, size, status: keeper.status().kind };
  });
  expect(outcome).toEqual({ same: true, counts: [2, 2, 0], size: 12_000_000, status: 'kept' });
});

describe('the store', () => {
  test('keeps each content once, whoever uses it, and drops it with its last user', async () => {
    const page = await firstTab();
    const counts = await page.evaluate(async () => {
      const { kept, store } = window;
      const counts: number[] = [];
      const count = async () => counts.push((await kept.contentKeys('rainledger')).length);
      const a = await kept.workspaceWith('a', { buildings: 'same', walls: 'of a' });
      const b = await kept.workspaceWith('b', { buildings: 'same' });
      await store.save(a.workspace, a.contents);
      await count();
      await store.save(b.workspace, b.contents);
      const copy = await store.duplicate(b.workspace.id, 'copy of b');
      await count();
      await store.remove(a.workspace.id);
      await count();
      await store.remove(b.workspace.id);
      await count();
      if (copy.ok) await store.remove(copy.value.id);
      await count();
      return counts;
    });
    expect(counts).toEqual([2, 2, 1, 1, 0]);
  });

  test('needs no content again for a change of one setting, and does not write it again', async () => {
    const page = await firstTab();
    const outcome = await page.evaluate(async () => {
      const { workspace, contents } = await window.kept.workspaceWith('a', { buildings: 'text' });
      const first = await window.store.save(workspace, contents);
      if (!first.ok) throw new Error(first.trouble.message);
      const puts: string[] = [];
      const put = IDBObjectStore.prototype.put;
      IDBObjectStore.prototype.put = function (...args) {
        puts.push(this.name);
        return put.apply(this, args);
      };
      const second = await window.store.save(
        { ...first.value, settings: { as_of: 2030 } },
        new Map(),
      );
      return { puts, version: second.ok && second.value.version };
    });
    expect(outcome).toEqual({ puts: ['workspace'], version: 2 });
  });

  test('writes nothing when the same is said again, and saves in the order asked', async () => {
    const page = await firstTab();
    const outcome = await page.evaluate(async () => {
      const { workspace, contents } = await window.kept.workspaceWith('a', { buildings: 'text' });
      const answers = await Promise.all([
        window.store.save(workspace, contents),
        window.store.save(workspace, contents),
        window.store.save({ ...workspace, version: 1, notes: 'second' }, contents),
        window.store.save({ ...workspace, version: 2, notes: 'third' }, contents),
      ]);
      return answers.map((each) =>
        each.ok ? [each.value.version, each.value.notes] : each.trouble,
      );
    });
    expect(outcome).toEqual([
      [1, ''],
      [1, ''],
      [2, 'second'],
      [3, 'third'],
    ]);
  });

  test('refuses the save of a tab that has not seen the newest version, and keeps that', async () => {
    const page = await firstTab();
    const outcome = await page.evaluate(async () => {
      const { workspace, contents } = await window.kept.workspaceWith('a', { buildings: 'text' });
      const other = window.kept.openStore();
      await window.store.save(workspace, contents);
      await other.save({ ...workspace, version: 1, notes: 'of the other tab' }, contents);
      const mine = await window.store.save({ ...workspace, version: 1, notes: 'mine' }, contents);
      const stored = await window.store.open(workspace.id);
      return [!mine.ok && mine.trouble.code, stored.ok && stored.value.workspace.notes];
    });
    expect(outcome).toEqual(['stale', 'of the other tab']);
  });

  test('says so where the files do not fit, and how large they are, and leaves what was there', async () => {
    const page = await firstTab();
    const cdp = await context.newCDPSession(page);
    // Before the first write: Chromium remembers for half a minute how much room it found.
    const { origin } = new URL(server.origin);
    await cdp.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 2_000_000 });
    const id = await fill(page);
    const refused = await page.evaluate(async () => {
      const file = new File([new Uint8Array(5_000_000)], 'rain.tif');
      return window.keeper.keepFiles([{ role: 'rain', file }]);
    });
    expect(refused).toMatchObject({ kind: 'not kept', code: 'no room' });
    expect('message' in refused && refused.message).toMatch(
      /^This browser had no room for “Harbour blocks”, which needs another 5 MB.* Nothing of it was written/,
    );
    const stored = await page.evaluate(async (id) => {
      const found = await window.store.open(id);
      return found.ok && found.value.files.map(({ name }) => name);
    }, id);
    expect(stored).toEqual(['list.csv']);
    await cdp.send('Storage.overrideQuotaForOrigin', { origin });
    expect((await page.evaluate(() => window.keeper.flush())).kind).toBe('kept');
  });

  test('says so where the browser keeps nothing, and the work can still be saved to a file', async () => {
    const page = await firstTab();
    await page.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException('refused', 'SecurityError');
      };
    });
    await page.reload();
    await page.waitForFunction(() => window.keeper);
    await fill(page);
    expect(await status(page)).toMatchObject({ kind: 'not kept', code: 'no storage' });
    const size = await page.evaluate(async () => {
      const written = await window.keeper.toFile();
      return written.ok && written.value.size;
    });
    expect(size).toBeGreaterThan(200);
  });

  test('lets a newer page upgrade, keeps all through it, and tells the older tab', async () => {
    const page = await firstTab();
    const id = await fill(page);
    const newer = await tab(context);
    const notes = await newer.evaluate(async (id) => {
      const next = window.kept.openStore({
        upgrades: [...window.kept.upgrades, (db) => void db.createObjectStore('later' as 'fact')],
      });
      const found = await next.open(id);
      return found.ok && found.value.workspace.notes;
    }, id);
    expect(notes).toBe('Ask for the drawings of block 3.');
    await page.evaluate(() => window.keeper.keep({ notes: 'too late' }));
    const told = await page.evaluate(() => window.keeper.flush());
    expect(told).toMatchObject({ kind: 'not kept', code: 'outdated' });
  });

  test('says so where an older tab stands in the way of an upgrade, and goes on once it is closed', async () => {
    const page = await firstTab();
    await fill(page);
    const codes = await page.evaluate(async () => {
      window.store.close();
      const older = await new Promise<IDBDatabase>((resolve) => {
        const request = indexedDB.open('rainledger');
        request.onsuccess = () => resolve(request.result);
      });
      const next = window.kept.openStore({
        upgrades: [...window.kept.upgrades, (db) => void db.createObjectStore('later' as 'fact')],
      });
      const first = await next.list();
      older.close();
      await new Promise((resolve) => setTimeout(resolve, 50));
      const second = await next.list();
      return [first.ok ? '' : first.trouble.code, second.ok && second.value.length];
    });
    expect(codes).toEqual(['blocked', 1]);
  });

  test('asks the browser once to keep what is saved, and says so where it does not', async () => {
    const page = await firstTab();
    const outcome = await page.evaluate(async () => {
      let asked = 0;
      StorageManager.prototype.persist = async () => {
        asked += 1;
        return false;
      };
      const first = await window.kept.askToPersist(window.store);
      const second = await window.kept.askToPersist(window.store);
      return { asked, first, second };
    });
    expect(outcome.asked).toBe(1);
    expect(outcome.first).toEqual(outcome.second);
    expect(outcome.first).toMatchObject({
      firm: false,
      message: expect.stringContaining('to a file'),
    });
  });
});

describe('two tabs on one workspace', () => {
  test('the second reads and is told so; what it changes is not saved', async () => {
    const page = await firstTab();
    const id = await fill(page);
    const second = await tab(context);
    await second.evaluate((id) => window.keeper.open(id), id);
    expect(await status(second)).toMatchObject({ kind: 'reading' });
    expect((await held(second)).texts).toEqual(['Ref,lat\n1,47\n']);
    await second.evaluate(() => {
      window.keeper.keep({ notes: 'of the reader' });
      return window.keeper.flush();
    });
    await page.reload();
    await page.waitForFunction(() => window.keeper);
    await resume(page);
    expect((await held(page)).workspace.notes).toBe('Ask for the drawings of block 3.');
    expect((await status(page)).kind).toBe('kept');
  });

  test('the second may take it over: the first saves what waits, stops saving, and is told', async () => {
    const page = await firstTab();
    const id = await fill(page);
    const second = await tab(context);
    await second.evaluate((id) => window.keeper.open(id), id);
    await page.evaluate(() => window.keeper.keep({ notes: 'last words of the first' }));
    await second.evaluate(() => window.keeper.takeOver());
    expect((await held(second)).workspace.notes).toBe('last words of the first');
    expect(await status(page)).toMatchObject({
      kind: 'reading',
      message: expect.stringContaining('taken over'),
    });
    await page.evaluate(() => {
      window.keeper.keep({ notes: 'after the end' });
      return window.keeper.flush();
    });
    await second.evaluate(() => {
      window.keeper.keep({ settings: { as_of: 2031 } });
      return window.keeper.flush();
    });
    const stored = await second.evaluate(async (id) => {
      const found = await window.store.open(id);
      return found.ok && [found.value.workspace.notes, found.value.workspace.settings];
    }, id);
    expect(stored).toEqual(['last words of the first', { as_of: 2031 }]);
  });

  test('one that does not hear is taken from by force: the taker saves, the other no longer does', async () => {
    const page = await firstTab();
    // A tab that hears nothing, as browsers freeze those in the background.
    await page.addInitScript(() => {
      Object.defineProperty(BroadcastChannel.prototype, 'onmessage', { set: () => {} });
    });
    await page.reload();
    await page.waitForFunction(() => window.keeper);
    const id = await fill(page);
    const second = await tab(context);
    await second.evaluate((id) => window.keeper.open(id), id);
    await second.evaluate(() => window.keeper.takeOver());
    await page.waitForFunction(() => window.keeper.status().kind === 'reading');
    await page.evaluate(() => {
      window.keeper.keep({ notes: 'of the one that did not hear' });
      return window.keeper.flush();
    });
    const saved = await second.evaluate(() => {
      window.keeper.keep({ notes: 'of the taker' });
      return window.keeper.flush();
    });
    expect(saved.kind).toBe('kept');
    const stored = await second.evaluate((id) => window.store.open(id), id);
    expect(stored.ok && stored.value.workspace.notes).toBe('of the taker');
  });

  test('a workspace open in another tab is not removed', async () => {
    const page = await firstTab();
    const id = await fill(page);
    const second = await tab(context);
    const refused = await second.evaluate((id) => window.keeper.remove(id), id);
    expect(refused).toMatchObject({ ok: false, trouble: { code: 'held elsewhere' } });
    await page.close();
    expect(await second.evaluate((id) => window.keeper.remove(id), id)).toMatchObject({ ok: true });
    expect(await second.evaluate(() => window.kept.contentKeys('rainledger'))).toEqual([]);
  });

  test('a refused save can go on as a copy with everything in it', async () => {
    const page = await firstTab();
    const id = await fill(page);
    await page.evaluate(async (id) => {
      const other = window.kept.openStore();
      const found = await other.open(id);
      if (found.ok) await other.save({ ...found.value.workspace, notes: 'other' }, new Map());
      window.keeper.keep({ notes: 'mine' });
      await window.keeper.flush();
    }, id);
    expect(await status(page)).toMatchObject({ kind: 'not kept', code: 'stale' });
    await page.evaluate(() => window.keeper.keepAsCopy('Harbour blocks, my copy'));
    expect((await status(page)).kind).toBe('kept');
    const copy = await held(page);
    expect([copy.workspace.notes, copy.texts]).toEqual(['mine', ['Ref,lat\n1,47\n']]);
  });
});
