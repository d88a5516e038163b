import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { regionOfCode } from '../../analysis/place/postal-region.ts';
import { readLines } from '../../data/postal/lines.ts';
import { makeStates } from '../../data/postal/states.ts';

/** First three digits by state, from memory of the US Postal Service's Labeling List L002. */
const prefixes = `NY 005 100-149|PR 006-007 009|MA 010-027 055|RI 028-029|NH 030-038|ME 039-049|VT 050-054 056-059
CT 060-069|NJ 070-089|PA 150-196|DE 197-199|DC 200 202-205|VA 201 220-246|MD 206-219|WV 247-268|NC 270-289|SC 290-299
GA 300-319 398-399|FL 320-339 341-342 344 346-347 349|AL 350-369|TN 370-385|MS 386-397|KY 400-427|OH 430-459
IN 460-479|MI 480-499|IA 500-528|WI 530-549|MN 550-567|SD 570-577|ND 580-588|MT 590-599|IL 600-629|MO 630-658
KS 660-679|NE 680-693|LA 700-714|AR 716-729|OK 730-732 734-749|TX 733 750-799 885|CO 800-816|WY 820-831|ID 832-838
UT 840-847|AZ 850-865|NM 870-884|NV 889-898|CA 900-961|HI 967-968|OR 970-979|WA 980-994|AK 995-999`;

const stateOfPrefix = new Map(
  prefixes.split(/[|\n]/).flatMap((entry) => {
    const [state, ...runs] = entry.split(' ');
    return runs.flatMap((run) => {
      const [from, to = from] = run.split('-').map(Number);
      return Array.from({ length: to! - from! + 1 }, (_, i) => [from! + i, state!] as const);
    });
  }),
);

const rows = readFileSync(new URL('../../data/postal/states.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((row) => row.split(',') as [string, string, string, string]);

test('data/postal/states.csv is what its script makes of the list of codes', async () => {
  await expect(makeStates()).toMatchFileSnapshot('../../data/postal/states.csv');
});

describe('the region of a postal code', () => {
  test('every listed code of the 50 states, DC and Puerto Rico names the state of its line', () => {
    const codes = readLines().map((line) => line.split(','));
    const elsewhere = new Set(['VI', 'AS', 'GU', 'PW', 'FM', 'MP', 'MH']);
    const wrong = codes.filter(
      ([zip, , , , state]) =>
        (regionOfCode(zip!)?.code ?? null) !== (elsewhere.has(state!) ? null : state),
    );
    expect(codes.length).toBeGreaterThan(42_000);
    expect(wrong).toEqual([]);
  });

  test('stretches agree with the first three digits as the Postal Service gives them (L002, from memory), but for Fishers Island', () => {
    const astray = rows.filter(([from, to, state]) => {
      const ends = [from, to].map((zip) => stateOfPrefix.get(Number(zip.slice(0, 3))));
      return ends.some((end) => end !== state);
    });
    expect(astray.map(([from, to, state]) => [from, to, state])).toEqual([
      ['06390', '06390', 'NY'],
    ]);
  });

  test('stretches are in order and do not overlap', () => {
    for (const [i, [from, to]] of rows.entries()) {
      expect(Number(to)).toBeGreaterThanOrEqual(Number(from));
      if (i > 0) expect(Number(from)).toBeGreaterThan(Number(rows[i - 1]![1]));
    }
  });

  test('codes whose centre is not known for sure still name their state: Honolulu', () =>
    expect(regionOfCode('96815')?.code).toBe('HI'));

  // 09 and 962-966 serve the forces abroad, 340 the Americas; 008 and 969 are islands without a row in data/regions.csv.
  test.each([
    '09012',
    '34034',
    '96201',
    '00801',
    '96910',
    '00000',
    '99999',
    '9810',
    '',
    'SW1A 1AA',
  ])('%j names none', (code) => expect(regionOfCode(code)).toBeNull());

  test.each([
    ['98101', 'WA'],
    ['98101-1234', 'WA'],
    ['06390', 'NY'],
    ['06389', 'CT'],
    ['02801', 'RI'],
    ['73301', 'TX'],
    ['v6b1a1', 'BC'],
    ['H2X 1Y4', 'QC'],
  ])('%j names %s', (code, region) => expect(regionOfCode(code)?.code).toBe(region));

  // X is shared by the Northwest Territories and Nunavut.
  test('a first letter that two territories share names neither', () =>
    expect(regionOfCode('X0A 0H0')).toBeNull());
});
