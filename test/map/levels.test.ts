import { describe, expect, test } from 'vitest';
import { bandsOf, bandsWithin, levels, mmPerInch } from '../../dashboard/map/rain/levels.ts';

describe.each(['american', 'metric'] as const)('isohyets in %s units', (units) => {
  test('rise from line to line and cover every rain once, without a gap', () => {
    const bands = bandsOf(units);
    expect(bands[0]!.from).toBe(0);
    expect(bands.at(-1)!.below).toBe(Infinity);
    bands.slice(1).forEach((band, i) => {
      expect(band.from).toBe(bands[i]!.below);
      expect(band.from).toBeGreaterThan(bands[i]!.from);
    });
  });

  test('the 20-inch line, 508 mm, is the one heavier line and stands in the legend', () => {
    const main = levels[units].filter((level) => level.main);
    expect(main).toHaveLength(1);
    expect(main[0]).toMatchObject({ mm: 508, inLegend: true });
    expect(bandsOf(units).filter((band) => band.main)).toMatchObject([{ from: 508 }]);
  });

  test('each band is shaded by a rain of its own', () => {
    for (const { from, below, shade } of bandsOf(units)) {
      expect(shade).toBeGreaterThan(from);
      expect(shade).toBeLessThan(below);
    }
  });
});

test('an inch is 25.4 mm exactly (international yard and pound agreement, 1959)', () => {
  expect(mmPerInch).toBe(25.4);
});

test('American lines carry whole inches and metric ones whole hundreds of mm, as their labels say', () => {
  for (const { mm, label } of levels.american) expect(`${mm / 25.4} in`).toBe(label);
  for (const { mm, label, main } of levels.metric) {
    expect(Number(label.replace(/[^\d]/g, ''))).toBe(mm);
    expect(mm % 100).toBe(main ? 8 : 0);
  }
});

test('a legend shows only the bands that its sheet reaches', () => {
  expect(bandsWithin('american', [300, 600]).map(({ from }) => from / 25.4)).toEqual([10, 15, 20]);
  expect(bandsWithin('metric', [508, 508]).map(({ from }) => from)).toEqual([508]);
});
