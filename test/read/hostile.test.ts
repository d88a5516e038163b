import { describe, expect, test } from 'vitest';
import { numbers } from '../../analysis/columns.ts';
import { aside, noted, refused } from './hostile-files.ts';
import { buildings, refusal } from './sources.ts';

describe('a building list is refused in words', () => {
  test.each(refused)('$wrong', async ({ content, sentence }) => {
    expect(await refusal(buildings(content))).toBe(sentence);
  });
});

describe('a row is set aside with its reason, and the others are accepted', () => {
  test.each(aside)('$wrong', async ({ content, sentence }) => {
    const read = await buildings(content);
    expect(read.setAside.map(({ message }) => message)).toEqual([sentence]);
    expect(read.setAside[0]).toMatchObject({ file: 'portfolio.csv', row: 3 });
    expect([...numbers(read.table, 'row')]).toEqual([2]);
    expect(read.rowsRead).toBe(2);
  });
});

describe('a cell is taken as no record and said so, and its row is accepted', () => {
  test.each(noted)('$wrong', async ({ content, sentence }) => {
    const read = await buildings(content);
    expect(read.noted.map(({ message }) => message)).toEqual([sentence]);
    expect(read.setAside).toEqual([]);
    expect([...numbers(read.table, 'row')]).toEqual([2, 3]);
  });
});

test('no sentence uses a word that would pass judgement on a building', () => {
  const sentences = [...refused, ...aside, ...noted].map(({ sentence }) => sentence).join(' ');
  expect(sentences).not.toMatch(/at risk of|defective|non-compliant|\bsafe\b|\bfails\b/i);
});
