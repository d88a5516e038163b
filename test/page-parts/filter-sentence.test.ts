import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { heightBands } from '../../analysis/bands.ts';
import {
  countWords,
  leaningWords,
  orderWords,
  phraseGroups,
  rangeWords,
} from '../../dashboard/rank/filter-sentence.ts';
import { firstState, noFilters, type PageState } from '../../dashboard/state/page-state.ts';

const filters = {
  on: {
    height_used_m: { from: 10, below: 15 },
    wetting_l_m2: { from: 100 },
    region: { among: ['OR', null] },
    tier: { among: ['First look', 'Not scored'] },
    material: { among: ['adhered_stone'] },
    installed_used: { from: 1980, below: 2000 },
  },
  search: ' elm ',
} as const;

describe('the sentence of active filters', () => {
  it('names every active filter once, in a fixed order, and *no record* in words', () => {
    const said = phraseGroups(filters, 'metric').map(
      (group) => `${group.lead} ${group.phrases.map((phrase) => phrase.words).join(' or ')}`,
    );
    expect(said).toEqual([
      'in the tier First look or Not scored',
      'in the region OR or no record',
      'clad in adhered stone',
      'with a height 10 to 15 m',
      'with a cladding year 1980 to 1999',
      'with wetting 100 L/m² yr and over',
      'matching “elm”',
    ]);
  });

  it('says nothing where nothing is filtered', () => {
    expect(phraseGroups(noFilters, 'metric')).toEqual([]);
    expect(phraseGroups({ ...noFilters, search: '   ' }, 'metric')).toEqual([]);
  });

  it('striking every phrase, in any order, leaves no filter', () => {
    const all = phraseGroups(filters, 'metric').flatMap((group) => group.phrases);
    fc.assert(
      fc.property(fc.shuffledSubarray(all, { minLength: all.length }), (order) => {
        const end = order.reduce<PageState>((s, phrase) => phrase.remove(s), {
          ...firstState,
          filters,
        });
        expect(end.filters).toEqual(noFilters);
      }),
    );
  });

  it('striking one phrase removes only that one', () => {
    const [tiers] = phraseGroups(filters, 'metric');
    const after = tiers?.phrases[0]?.remove({ ...firstState, filters });
    expect(after?.filters).toEqual({
      ...filters,
      on: { ...filters.on, tier: { among: ['Not scored'] } },
    });
  });
});

describe('heights in words', () => {
  it('follow the units in use', () => {
    expect(rangeWords('rank', { from: 1, below: 21 }, 'metric')).toBe('1 to 20');
    expect(rangeWords('rank', { below: 1001 }, 'metric')).toBe('up to 1,000');
    expect(rangeWords('installed_used', { from: 2025, below: 2026 }, 'metric')).toBe('2025');
    expect(rangeWords('height_used_m', { below: 10 }, 'metric')).toBe('under 10 m');
    expect(rangeWords('height_used_m', { from: 50 }, 'metric')).toBe('50 m and over');
    expect(rangeWords('height_used_m', { from: 10, below: 15 }, 'american')).toBe('33 to 49 ft');
  });

  it('tell all bands apart in either units', () => {
    for (const units of ['metric', 'american'] as const) {
      const words = heightBands.map((band) => rangeWords('height_used_m', band, units));
      expect(new Set(words).size).toBe(heightBands.length);
    }
  });
});

describe('count and order', () => {
  it('say how many of how many', () => {
    expect(countWords(412, 412)).toBe('All 412 buildings');
    expect(countWords(1, 1)).toBe('The only building');
    expect(countWords(0, 1)).toBe('0 of 1 building');
    expect(countWords(0, 1_200_000)).toBe('0 of 1,200,000 buildings');
  });

  it('a sort by column offers the way back to the ranking, a ranking does not', () => {
    const sorted = { ...firstState, sort: { column: 'rain_mm', descending: true } };
    expect(orderWords(sorted, 'Rain').words).toBe('sorted by rain, descending');
    expect(orderWords(sorted, 'Rain').back?.(sorted).sort).toBeNull();
    expect(orderWords(firstState, '')).toEqual({
      words: 'ranked by index, reported leaks first',
      back: null,
    });
  });
});

describe('the ends of the counts', () => {
  it('say how many would be looked at first either way', () => {
    const none = {
      'First look': 0,
      'Next look': 0,
      'Keep watch': 0,
      'No flag': 0,
      'Not scored': 0,
    };
    const tierLow = { ...none, 'First look': 31 };
    expect(leaningWords({ tierLow, tierHigh: { ...none, 'First look': 1165 } })).toBe(
      'With all unknowns leaning low 31 are First look, leaning high 1,165.',
    );
  });
});
