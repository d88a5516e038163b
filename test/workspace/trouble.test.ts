import { expect, test } from 'vitest';
import {
  bytesInWords,
  noRoom,
  openingTrouble,
  troubleOf,
} from '../../dashboard/workspace/trouble.ts';

const messageOf = (allowed: number | null, used: number | null): string => {
  const result = noRoom('Harbour blocks', 200e6, { allowed, used });
  return result.ok ? '' : result.trouble.message;
};

test('names the room that the browser allows where that is less than the files need', () => {
  expect(messageOf(120e6, 0)).toMatch(
    /^This browser allows 120 MB here, and “Harbour blocks” needs another 200 MB\. .* save this one to a file\.$/,
  );
  expect(messageOf(300e6, 150e6)).toMatch(/allows 300 MB here, of which 150 MB are in use/);
});

test('names no room where the browser claims enough of it, or says nothing', () => {
  expect(messageOf(10e9, 0)).not.toContain('allows');
  expect(messageOf(null, null)).toMatch(/needs another 200 MB: .* the disk is nearly full/);
});

test.each([
  [0, '0 bytes'],
  [999, '999 bytes'],
  [1_000, '1 kB'],
  [74_400, '74 kB'],
  [1_450_000_000, '1.4 GB'],
])('says %i bytes as people do', (bytes, words) => {
  // The prefixes of IEC 80000-13 / SI: k, M and G are powers of ten.
  expect(bytesInWords(bytes)).toBe(words);
});

test('an error of the storage becomes a sentence with what to do, whatever its name', () => {
  const refused = new DOMException('no', 'SecurityError');
  expect(openingTrouble(refused).code).toBe('no storage');
  expect(openingTrouble(new Error('backing store')).code).toBe('no storage');
  expect(openingTrouble(new DOMException('', 'VersionError')).code).toBe('outdated');
  expect(troubleOf(new DOMException('disk on fire', 'UnknownError'))).toEqual({
    code: 'other',
    message: expect.stringMatching(/“disk on fire”.*Save the workspace to a file/),
  });
});
