import { describe, expect, it } from 'vitest';
import {
  factsOf,
  placeLine,
  tierEnds,
  tierSpan,
  worthChasing,
} from '../../dashboard/building/facts.ts';
import { sentenceIn } from '../../dashboard/parts/sentence.ts';
import { askedWords, needInFull, needWords } from '../../dashboard/rank/need-words.ts';

const record = {
  b: 4,
  row: 12,
  building_id: 'HX-1',
  city: 'Astoria',
  year_built: 1998,
  height_m: 12.2,
  terrain: null,
  overhang_mm: null,
  place_source: 'coordinates',
  broker: 'Hale & Pine',
};

describe('the ends of a tier', () => {
  it('are said where they differ from it, and only there', () => {
    const row = { tier: 'Next look', tier_low: 'Keep watch', tier_high: 'First look' };
    expect(tierEnds(row)).toEqual(['low Keep watch', 'high First look']);
    expect(tierEnds({ ...row, tier_high: 'Next look' })).toEqual(['low Keep watch']);
    expect(tierEnds({ tier: 'Not scored', tier_low: null, tier_high: null })).toEqual([]);
  });
});

describe('facts of a building', () => {
  it('are split into what is on record, what is not, and the user’s own columns', () => {
    const facts = factsOf(record, 'metric');
    expect(facts.onRecord.map((fact) => fact.label)).toEqual(['Built', 'Height']);
    expect(facts.missing).toEqual(['Terrain', 'Overhang']);
    expect(facts.own).toEqual([{ label: 'broker', text: 'Hale & Pine' }]);
  });

  it('leave out of the place what is not on record', () => {
    const detail = {
      b: 4,
      row: {},
      record: { ...record, address: null },
      walls: [],
      timeline: [],
      drivingRain: null,
    };
    expect(placeLine(detail)).toBe('HX-1 · Astoria');
  });

  it('say how far the tier may move, and nothing where it cannot', () => {
    expect(tierSpan({ tier_low: 'No flag', tier_high: 'First look' })).toBe(
      'between No flag and First look',
    );
    expect(tierSpan({ tier_low: 'No flag', tier_high: 'No flag' })).toBe('');
  });

  it('name the records worth chasing in the order given', () => {
    expect(worthChasing({ unknowns: 'sheathing;terrain', share_sheathing: 0.62 })).toEqual([
      'the sheathing (62 % of the spread)',
      'the terrain',
    ]);
    expect(worthChasing({})).toEqual([]);
  });
});

describe('drainage need in words', () => {
  it('names document and clause of the rule that asks, and what it asks for', () => {
    const need = 'asks: ubc-1997-2506.4';
    expect(needInFull(need).replaceAll('\u00a0', ' ')).toBe('asks: UBC 1997, § 2506.4');
    expect(askedWords(need)).toBe('two layers of Grade D paper');
  });

  it('keeps the missing fact, and a rule id it does not know', () => {
    expect(needInFull('cannot tell: climate_zone')).toBe('cannot tell: climate zone');
    expect(needInFull('asks: house-rule-1')).toBe('asks: house-rule-1');
    expect(needInFull(null)).toBe('no record');
  });

  it('in a row gives the verdict alone', () => {
    expect(needWords('cannot tell: climate_zone', 'code now')).toBe('code now: cannot tell');
    expect(needWords('does not ask', 'practice')).toBe('practice: does not ask');
  });
});

describe('sentences in American units', () => {
  it('convert numbers that carry a unit and leave the others alone', () => {
    expect(
      sentenceIn('Takes 100 L/m² a year over 4 storeys, 30.48 m high.', 'american').replaceAll(
        '\u00a0',
        ' ',
      ),
    ).toBe('Takes 2.45 gal/ft² a year over 4 storeys, 100 ft high.');
  });

  it('stay as they are in metric units', () => {
    expect(sentenceIn('4.8 mm is asked', 'metric')).toBe('4.8 mm is asked');
  });
});
