import { describe, expect, it } from 'vitest';
import type { EditionAnswer } from '../../analysis/session-types.ts';
import { answerKind, windowOf, yearsOf } from '../../dashboard/building/timeline-shape.ts';

const edition = (from: number, to: number, stoodThen: boolean): EditionAnswer => ({
  code: 'IBC',
  label: `IBC ${from}`,
  from,
  to,
  answer: 'does not ask',
  asks: null,
  stoodThen,
  standsNow: false,
});

describe('the line of editions', () => {
  it('tells asks, does not ask and cannot tell apart', () => {
    expect(['asks: ibc-2021', 'does not ask', 'cannot tell: climate_zone'].map(answerKind)).toEqual(
      ['asks', 'quiet', 'open'],
    );
  });

  it('holds the year built, however old, and is not stretched by codes of long standing', () => {
    const editions = [edition(1900, 1999, true), edition(2021, 2021, false)];
    const [from, to] = yearsOf(editions, 1962, 12);
    expect(from).toBeGreaterThan(1940);
    expect(from).toBeLessThan(1962);
    expect(to).toBeGreaterThan(2021);
  });

  it('shades from the first edition that may have stood to the year built', () => {
    const editions = [edition(2000, 2000, true), edition(2003, 2003, true)];
    expect(windowOf(editions, 2010, 12)).toEqual([2000, 2010]);
  });

  it('follows codes of long standing back by the lag only', () => {
    expect(windowOf([edition(1900, 1999, true)], 1990, 12)).toEqual([1978, 1990]);
  });

  it('shades nothing where the year or the edition is not known', () => {
    expect(windowOf([edition(2000, 2000, true)], null, 12)).toBeNull();
    expect(windowOf([edition(2000, 2000, false)], 1990, 12)).toBeNull();
  });
});
