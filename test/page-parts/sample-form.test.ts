import { describe, expect, it } from 'vitest';
import { keptDistance, shownDistance } from '../../dashboard/sample/distance.ts';
import { dayOf, firstForm, planIdFor, toggled } from '../../dashboard/sample/form.ts';
import { exclusionLines, idLines } from '../../dashboard/sample/id-lines.ts';
import { handTotal, requestOf } from '../../dashboard/sample/request-of.ts';
import { populationWords } from '../../dashboard/sample/words.ts';
import { noFilters } from '../../dashboard/state/page-state.ts';

const form = firstForm('2026-04-01');
const asked = (part: Partial<typeof form>, strata: string[] = []) => {
  const found = requestOf({ ...form, ...part }, strata);
  if (!found.ok) throw new Error(found.says.join(' '));
  return found.request;
};

describe('what is typed about a sample', () => {
  it('no cost is filled in for the user', () => {
    const { currency, opening, repair, access, budget } = form;
    expect([currency, opening, repair, access, budget]).toEqual(['', '', '', '', '']);
  });

  it('a day is that of the clock where it stands', () => {
    expect(dayOf(new Date(2026, 0, 5, 23, 59))).toBe('2026-01-05');
  });

  it('strata keep the order in which they were chosen, and a field can be taken away again', () => {
    const chosen = toggled(toggled(toggled([], 'height'), 'tier'), 'era');
    expect(chosen).toEqual(['height', 'tier', 'era']);
    expect(toggled(chosen, 'tier')).toEqual(['height', 'era']);
  });

  it('two plans of one day have different titles', () => {
    expect(planIdFor('2026-04-01', [])).toBe('plan-2026-04-01');
    expect(planIdFor('2026-04-01', ['plan-2026-04-01', 'plan-2026-04-01-2'])).toBe(
      'plan-2026-04-01-3',
    );
  });

  it('an exclusion is an id and a reason, parted by the first semicolon or by a tab', () => {
    const { read, says } = exclusionLines('B-1 / n; no access; dog\n\nB;2\towner declines\r\n');
    expect(says).toEqual([]);
    expect(read).toEqual([
      { id: 'B-1 / n', reason: 'no access; dog' },
      { id: 'B;2', reason: 'owner declines' },
    ]);
  });

  it('an exclusion without a reason is refused with its line, and nothing is asked', () => {
    const found = requestOf({ ...form, exclusions: 'B-1; no access\nB-2\n' }, []);
    expect(found.ok).toBe(false);
    expect(found.says).toHaveLength(1);
    expect(found.says[0]).toMatch(/line 2: “B-2” needs an id and a reason/);
  });

  it('ids to be included stand one a line, without blanks around them', () => {
    expect(idLines(' B-1 / n \n\nB-2\r\n')).toEqual(['B-1 / n', 'B-2']);
  });

  it('expected shares are asked in percent and handed on as shares, for strata that are there', () => {
    const part = { allocation: 'neyman', shares: { stucco: '30', gone: '50', eifs: '' } } as const;
    expect(asked(part, ['stucco', 'eifs']).allocation).toEqual({
      kind: 'neyman',
      shares: { stucco: 0.3 },
    });
  });

  it('openings by hand add up over the strata that are there', () => {
    const part = { allocation: 'by hand', byHand: { stucco: '7', eifs: '5', gone: '9' } } as const;
    expect(handTotal({ ...form, ...part }, ['stucco', 'eifs'])).toBe(12);
    expect(asked(part, ['stucco', 'eifs']).allocation).toEqual({
      kind: 'by hand',
      openings: { stucco: 7, eifs: 5 },
    });
  });

  it('an empty seed or number of openings is no number, an empty distance is none', () => {
    const request = asked({ seed: '', openings: ' ', distanceKm: '', replacements: '' });
    expect(request.seed).toBeNaN();
    expect(request.openings).toBeNaN();
    expect(request.minimumDistanceKm).toBe(0);
    expect(request.replacementsPerStratum).toBe(0);
  });

  it('a distance typed in miles is kept in km and reads the same (1 mi = 1.609344 km by definition)', () => {
    expect(Number(keptDistance('1', 'american'))).toBe(1.609344);
    for (const typed of ['0.1', '1.5', '12', ''])
      expect(shownDistance(keptDistance(typed, 'american'), 'american')).toBe(typed);
    expect(keptDistance('2.5', 'metric')).toBe('2.5');
  });

  it('the population is said with every filter that makes it', () => {
    expect(populationWords('wall', noFilters, 'metric')).toBe(
      'Scored walls of buildings, the whole portfolio',
    );
    const filters = {
      ...noFilters,
      on: {
        tier: { among: ['First look', 'Next look'] },
        material: { among: ['adhered_stone'] },
      },
    };
    expect(populationWords('building', filters, 'metric')).toBe(
      'Scored buildings in the tier First look or Next look, clad in adhered stone',
    );
  });
});
