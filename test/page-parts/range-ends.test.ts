import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rangeTyped, shownEnds } from '../../dashboard/rank/columns/range-ends.ts';

const year = 'installed_used';

describe('the ends of a range as typed', () => {
  it('years from … to … include both, and are stored as from ≤ x < to + 1', () => {
    const stored = rangeTyped(year, {}, { from: '1990', upTo: '2025' }, 'metric');
    expect(stored).toEqual({ from: 1990, below: 2026 });
    expect(shownEnds(year, { from: 1990, below: 2026 }, 'metric')).toEqual({
      from: '1990',
      upTo: '2025',
    });
    expect(rangeTyped(year, {}, { from: '2025', upTo: '2025' }, 'metric')).toEqual({
      from: 2025,
      below: 2026,
    });
  });

  it('whole ends read as they were typed, whatever they are', () => {
    fc.assert(
      fc.property(fc.integer(), fc.nat(), (from, more) => {
        const typed = { from: `${from}`, upTo: `${from + more}` };
        const stored = rangeTyped(year, {}, typed, 'american');
        expect('refused' in stored || shownEnds(year, stored, 'american')).toEqual(typed);
      }),
    );
  });

  it('a measured range keeps its second end out, in the units in use', () => {
    expect(rangeTyped('height_used_m', {}, { from: '10', upTo: '15' }, 'metric')).toEqual({
      from: 10,
      below: 15,
    });
    const feet = rangeTyped('height_used_m', {}, { upTo: '100' }, 'american');
    // 1 ft is 0.3048 m exactly (NIST SP 811).
    expect((feet as { below: number }).below).toBeCloseTo(30.48, 9);
    expect(shownEnds('height_used_m', feet as { below: number }, 'american').upTo).toBe('100');
  });

  it('reversed ends are refused in words, and so is a part of a year', () => {
    expect(rangeTyped(year, {}, { from: '2025', upTo: '2010' }, 'metric')).toEqual({
      refused: expect.stringContaining('from 2025 to 2010'),
    });
    expect(rangeTyped(year, { below: 2011 }, { from: '2025' }, 'metric')).toEqual({
      refused: expect.stringContaining('from 2025 to 2010'),
    });
    expect(rangeTyped('index', { from: 20 }, { upTo: '20' }, 'metric')).toEqual({
      refused: expect.stringContaining('less than the second'),
    });
    expect(rangeTyped(year, {}, { from: '1990.5' }, 'metric')).toEqual({
      refused: 'A whole number is needed here.',
    });
  });

  it('an end left alone stands unrounded, and an emptied one is open', () => {
    const standing = { from: 10.123_456_789, below: 20 };
    expect(rangeTyped('height_used_m', standing, { upTo: '' }, 'american')).toEqual({
      from: 10.123_456_789,
    });
    expect(rangeTyped('height_used_m', standing, { from: '', upTo: '' }, 'metric')).toEqual({});
  });
});
