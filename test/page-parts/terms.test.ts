import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { csvTable } from '../../analysis/csv-table.ts';
import { explained, placeTerm } from '../../dashboard/parts/terms.ts';

const rows = csvTable<'term' | 'words' | 'text' | 'source'>(readFileSync('data/terms.csv', 'utf8'));
const sources = readdirSync('dashboard', { recursive: true, encoding: 'utf8' })
  .filter((path) => /\.tsx?$/.test(path))
  .map((path) => readFileSync(join('dashboard', path), 'utf8'));

describe('terms', () => {
  test('each is named once, is said in one or two sentences of its own and names its source', () => {
    expect(new Set(rows.map(({ term }) => term)).size).toBe(rows.length);
    for (const { term, words, text, source } of rows) {
      expect(words, term).toMatch(/\S/);
      expect(text, term).toMatch(/^[A-Z].*\.$/);
      expect(text.length, term).toBeLessThanOrEqual(240);
      expect(text.match(/[.!?](\s|$)/g)?.length ?? 0, term).toBeLessThanOrEqual(2);
      expect(source, term).toMatch(/\S/);
      expect(text, term).not.toMatch(/at risk of|defective|non-compliant|\bsafe\b|\bfails\b/i);
    }
  });

  test('a length of rain is said in inches and in millimetres', () => {
    for (const { term, text } of rows) {
      expect(/\d+ inch/.test(text), term).toBe(/\d+ mm/.test(text));
    }
  });

  test('every one stands somewhere on the page, and none is asked for that is not explained', () => {
    const quoted = new Set(
      sources.flatMap((text) => text.match(/(?<=['"])[a-z_]+(?=['"])/g) ?? []),
    );
    expect(rows.map(({ term }) => term).filter((term) => !quoted.has(term))).toEqual([]);
    const asked = sources.flatMap((text) =>
      [...text.matchAll(/<Term of="(\w+)"/g)].map((m) => m[1]!),
    );
    expect(asked.length).toBeGreaterThan(10);
    for (const term of asked) expect(explained(term).text).toMatch(/\S/);
    expect(() => explained('no such term')).toThrow('no such term');
  });
});

describe('the note of a term', () => {
  const view = { width: 1440, height: 900 };

  test('stands under its word, and over it in the lower part of the window', () => {
    expect(placeTerm({ left: 100, top: 50, bottom: 70 }, view)).toEqual({
      left: 100,
      top: 78,
      side: 'under',
    });
    expect(placeTerm({ left: 100, top: 850, bottom: 870 }, view)).toEqual({
      left: 100,
      top: 842,
      side: 'over',
    });
  });

  test('never leaves the window sideways', () => {
    for (const width of [320, 390, 1440]) {
      for (let left = -20; left < width; left += 37) {
        const place = placeTerm({ left, top: 50, bottom: 70 }, { width, height: 800 });
        expect(place.left).toBeGreaterThanOrEqual(8);
        expect(place.left + Math.min(320, width - 16)).toBeLessThanOrEqual(width - 8);
      }
    }
  });
});
