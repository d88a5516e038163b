import { describe, expect, test } from 'vitest';
import { guessMap, unmatchedValues } from '../../analysis/mapping/guess.ts';
import { meaningsIn } from '../../analysis/mapping/unmatched.ts';
import { sheet } from './sheets.ts';

const sample = sheet(
  'Building|Cladding|Substrate|Kickout',
  '1|Stucco / Brick|OSB|Y',
  '2|stucco/brick|OSB|Y',
  '3|EIFS on steel stud|OSB|maybe',
  '4|Stucco|unknown|N',
  '5|n/a|Fibre mat|',
  '6|Straw bale|Fibre mat|',
  '7|Stucco / Brick|Fibre mat|',
  '8|Straw bale|OSB|',
);

describe('values that no word of the vocabulary reads', () => {
  test('are listed with the most frequent first, spellings of one together, blanks left out', () => {
    expect(guessMap(sample, 'walls').unmatched).toEqual([
      {
        column: 'material',
        value: 'Stucco / Brick',
        rows: 3,
        meanings: ['stucco', 'anchored_brick'],
      },
      { column: 'sheathing', value: 'Fibre mat', rows: 3, meanings: [] },
      { column: 'material', value: 'Straw bale', rows: 2, meanings: [] },
      { column: 'kickout', value: 'maybe', rows: 1, meanings: [] },
      { column: 'material', value: 'EIFS on steel stud', rows: 1, meanings: ['eifs'] },
    ]);
  });

  test('are no longer listed once the map has the user’s own word for them', () => {
    const { map } = guessMap(sample, 'walls');
    const words = {
      material: { 'stucco / brick': 'stucco', 'straw bale': null },
      kickout: { Maybe: null },
    };
    expect(unmatchedValues(sample, { ...map, words }).map(({ value }) => value)).toEqual([
      'Fibre mat',
      'EIFS on steel stud',
    ]);
  });

  test.each([
    ['Thin stone veneer over stucco', ['adhered_stone', 'stucco']],
    ['Synthetic stucco & wood siding', ['eifs', 'wood']],
    ['Stucco w/ stone', ['stucco']],
    ['painted', []],
  ])('%s is offered as its parts', (value, meanings) => {
    expect(meaningsIn(value, 'material')).toEqual(meanings);
  });
});
