import { expect, test } from 'vitest';
import {
  contentFrom,
  contentOf,
  emptyContent,
  newId,
  newWorkspace,
  plain,
  sameContent,
} from '../../dashboard/workspace/workspace.ts';

const file = {
  role: 'buildings',
  name: 'list.csv',
  type: 'text/csv',
  size: 12,
  modified: 5e11,
  sha256: 'ab'.repeat(32),
};
const whole = { ...emptyContent('Harbour blocks'), files: [file] };

test('content that is whole passes, and what does not belong is left behind', () => {
  expect(contentFrom({ ...whole, other: 1 }, 'a.rainledger')).toEqual({ ok: true, value: whole });
});

test.each([
  ['a missing part', { ...whole, notes: undefined }, 'should have a text as “notes”'],
  ['a list in place of maps', { ...whole, maps: [] }, 'column maps by file name as “maps”'],
  [
    'a digest that is none',
    { ...whole, files: [{ ...file, sha256: '../x' }] },
    'file 1 of its list',
  ],
  ['a negative size', { ...whole, files: [file, { ...file, size: -1 }] }, 'file 2 of its list'],
  ['no object at all', null, 'cannot be read'],
])('%s is refused with the place and what should stand there', (_, value, words) => {
  const result = contentFrom(value, 'a.rainledger');
  expect(result.ok).toBe(false);
  const message = result.ok ? '' : result.trouble.message;
  expect(message).toContain('a.rainledger is not a whole workspace');
  expect(message).toContain(words);
});

test('what is kept is plain JSON: a number that JSON cannot write is our own mistake and throws', () => {
  expect(plain({ a: [1, undefined, 'x'], b: undefined })).toEqual({ a: [1, null, 'x'] });
  expect(() => plain({ settings: { weight: Number.NaN } })).toThrow('weight is NaN');
});

test('sameness is of content, not of id, version or time', () => {
  const a = newWorkspace(whole);
  const b = { ...newWorkspace(contentOf(a)), version: 9, savedAt: '2026-01-01T00:00:00Z' };
  expect(sameContent(a, b)).toBe(true);
  expect(sameContent(a, { ...b, notes: 'x' })).toBe(false);
});

test('ids do not repeat', () => {
  expect(new Set(Array.from({ length: 1000 }, newId)).size).toBe(1000);
});
