import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { findingColumns } from '../../analysis/findings/columns.ts';
import {
  cellsOf,
  emptyDraft,
  nextDraft,
  shownExtent,
  storedExtent,
  wantedOf,
} from '../../dashboard/findings/draft.ts';
import { extentWords, foundWords, meterWords } from '../../dashboard/findings/entry-words.ts';
import {
  blankFindings,
  findingHeadings,
  findingsCsv,
} from '../../dashboard/findings/finding-csv.ts';
import { wordsOf } from '../../dashboard/findings/vocabulary.ts';
import { findingsOf } from '../findings/field.ts';

const opening = {
  building_id: 'B1',
  wall_id: 'W2',
  method: 'opening',
  sheathing_seen: 'yes',
  condition: 'softened',
};
const wanted = (draft: Readonly<Record<string, string>>) =>
  wantedOf(draft).map(({ column }) => column);

describe('logging a finding', () => {
  it('an empty form wants building, wall and method, and nothing else', () => {
    expect(wanted(emptyDraft)).toEqual(['building_id', 'wall_id', 'method']);
  });

  it('an opening wants to know whether the sheathing was seen; no other method is asked', () => {
    expect(wanted({ ...opening, sheathing_seen: '' })).toEqual(['sheathing_seen']);
    for (const method of wordsOf('method').filter((word) => word !== 'opening'))
      expect(wanted({ ...opening, method, sheathing_seen: '' })).toEqual([]);
    expect(wanted({ ...opening, sheathing_seen: '', not_accessible: 'yes' })).toEqual([]);
  });

  it('seen sheathing wants its condition, a reading its scale', () => {
    expect(wanted({ ...opening, condition: '' })).toEqual(['condition']);
    expect(wanted({ ...opening, moisture_pct: '22' })).toEqual(['reading_scale']);
    expect(wanted({ ...opening, moisture_pct: '22', reading_scale: 'relative' })).toEqual([]);
  });

  it('a reading over 200 % and an area below 0 are not taken', () => {
    const more = { moisture_pct: '201', reading_scale: 'relative', extent_m2: '-1' };
    expect(wanted({ ...opening, ...more })).toEqual(['moisture_pct', 'extent_m2']);
  });

  it('changing the method away from an opening takes back that the sheathing was seen', () => {
    expect(cellsOf({ ...opening, method: 'visual' }).sheathing_seen).toBe('no');
    expect(cellsOf({ ...opening, note: '  ' })).toEqual(opening);
  });

  it('date, method and observer stay for the next wall, and nothing else', () => {
    const said = { ...opening, observed_on: '2026-05-02', observer: 'I. Marlowe', note: 'x' };
    expect(nextDraft(said)).toEqual({
      observed_on: '2026-05-02',
      method: 'opening',
      observer: 'I. Marlowe',
    });
  });

  it('whatever the form takes, the reader accepts without a remark', async () => {
    const word = (column: Parameters<typeof wordsOf>[0]) => fc.constantFrom('', ...wordsOf(column));
    const drafts = fc.record({
      method: fc.constantFrom(...wordsOf('method')),
      sheathing_seen: fc.constantFrom('', 'yes', 'no'),
      condition: word('condition'),
      moisture_pct: fc.constantFrom('', '0', '18.5', '200', '-3'),
      reading_scale: word('reading_scale'),
      location: word('location'),
      extent_m2: fc.constantFrom('', '0', '2.25'),
      not_accessible: fc.constantFrom('', 'yes'),
    });
    await fc.assert(
      fc.asyncProperty(drafts, async (some) => {
        const draft = { building_id: 'B1', wall_id: 'W2', ...some };
        fc.pre(wantedOf(draft).length === 0);
        const read = await findingsOf(findingsCsv([cellsOf(draft)]).trimEnd());
        expect(read.setAside).toEqual([]);
        expect(read.noted).toEqual([]);
      }),
      { numRuns: 60, seed: 5 },
    );
  });

  it('an extent typed in ft² reads the same after its way through m²', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 99_999 }), (hundredths) => {
        const typed = String(hundredths / 100);
        expect(shownExtent(storedExtent(typed, 'american'), 'american')).toBe(typed);
      }),
    );
    expect(storedExtent('abc', 'american')).toBe('abc');
  });

  it('10 ft² is 0.929 m² (international foot, 0.3048 m exactly, NIST SP 811)', () => {
    expect(Number(storedExtent('10', 'american'))).toBeCloseTo(0.92903, 5);
  });
});

describe('a finding in words', () => {
  it('what was not seen is never said of the sheathing', () => {
    expect(foundWords(opening)).toBe('sheathing softened');
    expect(foundWords({ condition: 'stained' })).toBe('stained, sheathing not seen');
    expect(foundWords({ not_accessible: 'yes' })).toBe('not reached');
    expect(foundWords({})).toBe('no condition, sheathing not seen');
  });

  it('a reading stands with its scale, an extent with its unit', () => {
    expect(meterWords({ moisture_pct: 18, reading_scale: 'wood_equivalent' })).toBe(
      '18 %, wood equivalent',
    );
    expect(meterWords({ moisture_pct: '9' })).toBe('9 %, no scale on record');
    expect(meterWords({ moisture_pct: null })).toBe('');
    expect(extentWords({ extent_m2: 1.5 }, 'metric')).toBe('1.5\u00a0m²');
    expect(extentWords({ extent_m2: '1.5' }, 'american')).toBe('16.1\u00a0ft²');
    expect(extentWords({ extent_m2: '' }, 'metric')).toBe('');
  });
});

describe('findings as a file', () => {
  const row = { ...opening, extent_m2: 1.5, note: '=HYPERLINK("x")', moisture_pct: null, row: 2 };

  it('has the headings of the contract, in its order', () => {
    expect(findingHeadings).toEqual(findingColumns.map(({ name }) => name));
    expect(Papa.parse<string[]>(blankFindings.trim()).data).toEqual([findingHeadings]);
  });

  it('is read back as it was', async () => {
    const text = findingsCsv([{ ...row, note: 'two\nlines, "quoted"' }]);
    const { data } = Papa.parse<Record<string, string>>(text.trim(), { header: true });
    expect(data[0]).toMatchObject({ ...opening, extent_m2: '1.5', note: 'two\nlines, "quoted"' });
    const read = await findingsOf(text.trim());
    expect(read.table.n).toBe(1);
    expect(read.setAside).toEqual([]);
  });

  it('what a spreadsheet would take for a formula is marked as text', () => {
    const { data } = Papa.parse<Record<string, string>>(findingsCsv([row]), { header: true });
    expect(data[0]!.note).toBe('\'=HYPERLINK("x")');
    expect(data[0]!.moisture_pct).toBe('');
  });
});
