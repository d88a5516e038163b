import fc from 'fast-check';
import { strFromU8, strToU8, unzipSync, type Zippable, zipSync } from 'fflate';
import { expect, test } from 'vitest';
import { digestOf } from '../../dashboard/workspace/digest.ts';
import {
  type Limits,
  readWorkspaceFile,
  writeWorkspaceFile,
} from '../../dashboard/workspace/one-file.ts';
import { emptyContent, newWorkspace, type Workspace } from '../../dashboard/workspace/workspace.ts';
import { crc32 } from '../../dashboard/workspace/zip/crc32.ts';
import { repacked } from './repacked.ts';

const csv = 'Ref,lat\n1,47\n'.repeat(500);

async function filled(files: readonly File[] = [new File([csv], 'list.csv')]): Promise<Workspace> {
  const kept = files.map(async (file, i) => ({
    role: i === 0 ? 'buildings' : 'walls',
    name: file.name,
    type: file.type,
    size: file.size,
    modified: file.lastModified,
    sha256: await digestOf(file),
  }));
  const content = {
    ...emptyContent('Harbour blocks'),
    files: await Promise.all(kept),
    maps: { 'list.csv': { building_id: 'Ref' } },
    notes: 'Größe · 雨\nsecond line',
  };
  return { ...newWorkspace(content), savedAt: '2026-03-04T05:06:08.000Z', version: 3 };
}

async function written(files?: readonly File[]): Promise<File> {
  const given = files ?? [new File([csv], 'list.csv')];
  const result = await writeWorkspaceFile(await filled(given), given);
  if (!result.ok) throw new Error(result.trouble.message);
  return result.value;
}

const bytesOf = async (blob: Blob) => new Uint8Array(await blob.arrayBuffer());
const asFile = (bytes: Uint8Array<ArrayBuffer>, name = 'harbour.rainledger') =>
  new File([bytes], name);

async function refusal(file: File, within?: Partial<Limits>): Promise<string> {
  const result = await readWorkspaceFile(file, within);
  return result.ok ? 'opened' : result.trouble.message;
}

/** The written workspace with other entries. */
async function altered(change: (entries: Zippable) => void): Promise<File> {
  const entries: Zippable = unzipSync(await bytesOf(await written()));
  change(entries);
  return asFile(zipSync(entries));
}

const json = (change: (parts: Record<string, unknown>) => void) => (entries: Zippable) => {
  const parts = JSON.parse(strFromU8(entries['workspace.json'] as Uint8Array));
  change(parts);
  entries['workspace.json'] = strToU8(JSON.stringify(parts));
};

test('the check sum is that of the standard', () => {
  // Check value of CRC-32/ISO-HDLC for the nine digits, as catalogued and as ZIP uses it (APPNOTE 4.4.7).
  expect(crc32(strToU8('123456789'))).toBe(0xcbf43926);
  expect(crc32(strToU8('6789'), crc32(strToU8('12345')))).toBe(0xcbf43926);
});

test('what is written is a ZIP that others read, small, with the file under a name people find', async () => {
  const file = await written();
  const entries = unzipSync(await bytesOf(file));
  expect(Object.keys(entries)).toEqual(['workspace.json', 'files/1-list.csv']);
  expect(strFromU8(entries['files/1-list.csv']!)).toBe(csv);
  expect(file.name).toBe('Harbour blocks.rainledger');
  expect(file.size).toBeLessThan(csv.length / 2);
});

test('what is written is opened again without a difference, any bytes and any number of files', async () => {
  const anyFile = fc.record({
    bytes: fc.uint8Array({ maxLength: 3_000 }),
    name: fc.string({ unit: 'grapheme', minLength: 1, maxLength: 20 }),
  });
  await fc.assert(
    fc.asyncProperty(fc.array(anyFile, { maxLength: 4 }), async (given) => {
      const files = given.map(
        ({ bytes, name }) => new File([Uint8Array.from(bytes)], name, { lastModified: 7e11 }),
      );
      const workspace = await filled(files);
      const file = await writeWorkspaceFile(workspace, files);
      const back = await readWorkspaceFile(file.ok ? file.value : asFile(new Uint8Array()));
      if (!back.ok) throw new Error(back.trouble.message);
      const { id: _, version: __, savedAt: ___, ...content } = workspace;
      expect(back.value.content).toEqual(content);
      expect(back.value.files.map(({ name, lastModified }) => [name, lastModified])).toEqual(
        files.map(({ name, lastModified }) => [name, lastModified]),
      );
      const both = await Promise.all([...back.value.files, ...files].map(bytesOf));
      expect(both.slice(0, files.length)).toEqual(both.slice(files.length));
    }),
    { numRuns: 60, seed: 11 },
  );
});

test('a content of several pieces, and one already packed, come back whole', async () => {
  const large = Uint8Array.from({ length: 900_001 }, (_, i) => (i * i) >> 7);
  const back = await readWorkspaceFile(
    await written([new File([large], 'rain.tif'), new File([large], 'list.xlsx')]),
  );
  expect(back.ok && back.value.files.map(({ size }) => size)).toEqual([900_001, 900_001]);
  expect(back.ok && (await bytesOf(back.value.files[0]!))).toEqual(large);
});

test('bytes on which a streaming packer went wrong come back: squares and noise', async () => {
  const squares = Uint8Array.from({ length: 300_000 }, (_, i) => (i * i) >> 7);
  const noise = Uint8Array.from(
    { length: 300_000 },
    (_, i) => (Math.imul(i, 2654435761) >>> 13) & 0xff,
  );
  const files = [squares, noise].map((bytes, i) => new File([bytes], `${i}.tif`));
  const entries = unzipSync(await bytesOf(await written(files)));
  expect([entries['files/1-0.tif'], entries['files/2-1.tif']]).toEqual([squares, noise]);
});

test('two files of one content are packed once', async () => {
  const entries = unzipSync(
    await bytesOf(await written([new File([csv], 'a.csv'), new File([csv], 'b.csv')])),
  );
  expect(Object.keys(entries)).toEqual(['workspace.json', 'files/1-a.csv']);
});

test('a workspace that another program packed again is opened', async () => {
  const back = await readWorkspaceFile(
    asFile(Uint8Array.from(atob(repacked), (c) => c.charCodeAt(0))),
  );
  expect(back.ok && [back.value.content.name, await back.value.files[0]!.text()]).toEqual([
    'Repacked',
    'Ref,lat\n1,47\n',
  ]);
});

test('what is no ZIP, or a ZIP of something else, is refused by name', async () => {
  expect(await refusal(new File([csv], 'list.csv'))).toBe(
    'list.csv is not a workspace file. A workspace saved here ends in .rainledger.',
  );
  expect(await refusal(new File([], 'empty.rainledger'))).toContain('is not a workspace file');
  const foreign = asFile(zipSync({ '[Content_Types].xml': strToU8('<x/>') }), 'book.xlsx');
  expect(await refusal(foreign)).toContain('book.xlsx is a ZIP, but not a workspace');
  const other = await altered(json((parts) => (parts.format = 'other')));
  expect(await refusal(other)).toContain('not of a workspace saved here');
});

test('a file cut short anywhere is refused, and so is one with a byte changed', async () => {
  const bytes = await bytesOf(await written());
  for (const share of [0.1, 0.5, 0.9, 0.999]) {
    const cut = asFile(bytes.slice(0, Math.floor(bytes.length * share)));
    expect(await refusal(cut)).toMatch(/is cut short: its end is missing/);
  }
  const at = bytes.findIndex((_, i) => i > 60 && bytes[i] !== 0);
  for (const position of [at, Math.floor(bytes.length / 2)]) {
    const changed = bytes.slice();
    changed[position]! ^= 0x10;
    expect(await refusal(asFile(changed))).not.toBe('opened');
  }
});

test('a content with another digest or size than the list says is refused by the file’s name', async () => {
  const other = await altered((entries) => {
    entries['files/1-list.csv'] = strToU8(csv.replace('47', '48'));
  });
  expect(await refusal(other)).toContain('the content of “list.csv” is not what was saved');
  const longer = await altered((entries) => {
    entries['files/1-list.csv'] = strToU8(`${csv}2,48\n`);
  });
  expect(await refusal(longer)).toContain('the content of “list.csv” is not what was saved');
  const without = await altered((entries) => {
    delete entries['files/1-list.csv'];
  });
  expect(await refusal(without)).toContain('lacks the content of “list.csv”');
});

test.each([
  '../evil.csv',
  'files/../../evil.csv',
  '/etc/evil.csv',
  'files\\evil.csv',
  'files/.evil',
  'files/deep/evil.csv',
  'C:evil.csv',
])('a part named %s is refused before anything is unpacked', async (path) => {
  const file = await altered((entries) => {
    entries[path] = strToU8('x');
  });
  expect(await refusal(file)).toContain('which is no place for a part of a workspace');
});

test('a list that points at a part of another place finds nothing there', async () => {
  const file = await altered(
    json((parts) => {
      const [digest] = Object.keys(parts.contents as object);
      parts.contents = { [digest!]: '../../etc/evil.csv' };
    }),
  );
  expect(await refusal(file)).toContain('lacks the content of “list.csv”');
});

test('a file of a newer format is refused with both numbers, not half read', async () => {
  const newer = await altered(json((parts) => (parts.formatVersion = 7)));
  expect(await refusal(newer)).toMatch(
    /newer version of this page \(format 7; this one reads up to 1\)/,
  );
});

test('a list with a part missing is refused with the part’s name', async () => {
  const file = await altered(json((parts) => delete parts.edits));
  expect(await refusal(file)).toContain('a list of edits as “edits”');
});

test('a file that would unpack beyond the limit is refused by what its directory states', async () => {
  const file = await altered((entries) => {
    entries['files/2-zeros'] = new Uint8Array(5_000_000);
  });
  expect(file.size).toBeLessThan(50_000);
  expect(await refusal(file, { unpacked: 1_000_000 })).toMatch(
    /would unpack to 5 MB; this page opens up to 1 MB.* It was not unpacked/,
  );
});

test('a directory that states less than what comes out is found out while unpacking', async () => {
  const bytes = await bytesOf(
    await altered((entries) => {
      entries['files/1-list.csv'] = new Uint8Array(5_000_000);
    }),
  );
  const view = new DataView(bytes.buffer);
  // The central header of the content: its stated size (APPNOTE 4.3.12, offset 24) is made the one of the list.
  for (let at = bytes.length - 46; at > 0; at--) {
    const named = strFromU8(bytes.subarray(at + 46, at + 46 + view.getUint16(at + 28, true)));
    if (view.getUint32(at, true) === 0x02014b50 && named === 'files/1-list.csv')
      view.setUint32(at + 24, csv.length, true);
  }
  expect(await refusal(asFile(bytes))).toContain('is damaged');
});

test('parts that share bytes are refused: a small file would unpack to a huge one', async () => {
  const bytes = await bytesOf(
    await altered((entries) => {
      entries['files/2-other.csv'] = strToU8(csv);
    }),
  );
  const view = new DataView(bytes.buffer);
  const heads = [...bytes.keys()].filter(
    (at) => at < bytes.length - 46 && view.getUint32(at, true) === 0x02014b50,
  );
  // All central headers point at the first local header (offset 42).
  for (const at of heads) view.setUint32(at + 42, 0, true);
  expect(await refusal(asFile(bytes))).toContain('its parts overlap');
});
