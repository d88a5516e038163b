import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { newIds } from '../../analysis/batch/ids.ts';

describe('identifiers kept as digests', () => {
  test('are found again, and no others, as in a Map (property)', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'binary', maxLength: 6 })), (texts) => {
        const [ids, map] = [newIds(), new Map<string, number>()];
        texts.forEach((text, i) => {
          expect(ids.get(text)?.row).toBe(map.get(text));
          if (map.has(text)) return;
          ids.set(text, { row: i, place: 0 });
          map.set(text, i);
        });
        expect(ids.size()).toBe(map.size);
        [...map.keys()].forEach((text, b) => {
          expect(ids.ordinal(text)).toBe(b);
        });
      }),
      { seed: 7 },
    );
  });

  test('are told apart among three hundred thousand that differ in one digit', () => {
    const ids = newIds();
    const name = (i: number) => `YYC-${String(i).padStart(7, '0')}-01`;
    for (let i = 0; i < 300_000; i += 1) {
      expect(ids.has(name(i))).toBe(false);
      ids.set(name(i), { row: i + 2, place: 0 });
    }
    for (let i = 0; i < 300_000; i += 997) {
      expect(ids.get(name(i))).toEqual({ row: i + 2, place: i });
    }
  });
});
