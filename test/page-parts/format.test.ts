import { describe, expect, it } from 'vitest';
import {
  counted,
  digits,
  facing,
  figureOf,
  joined,
  ledgerValue,
  money,
  noRecord,
  show,
} from '../../dashboard/parts/format.ts';
import { quantities } from '../../dashboard/parts/quantity.ts';

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

describe('figures', () => {
  it('rain is shown to 0.1 mm or 0.1 in, 25.4 mm to the inch (NIST SP 811, appendix B)', () => {
    expect(plain(show(1204.26, 'rain_mm', 'metric'))).toBe('1,204.3 mm');
    expect(plain(show(508, 'rain_mm', 'american'))).toBe('20.0 in');
  });

  it('wetting is litres per square metre, or US gallons (3.785412 L) per square foot (NIST SP 811, appendix B)', () => {
    expect(plain(show(89.12677, 'wetting_l_m2', 'metric'))).toBe('89.1 L/m² yr');
    // 100 L/m² ÷ 3.785412 L/gal × 0.09290304 m²/ft² = 2.4542 gal/ft²
    expect(plain(show(100, 'wetting_l_m2', 'american'))).toBe('2.45 gal/ft² yr');
  });

  it('heights and areas follow the units: 1 ft = 0.3048 m, 1 ft² = 0.09290304 m² (NIST SP 811, appendix B)', () => {
    expect(plain(show(30.48, 'height_m', 'american'))).toBe('100 ft');
    expect(plain(show(92.90304, 'area_m2', 'american'))).toBe('1,000 ft²');
    expect(plain(show(16.0934, 'distance_to_coast_km', 'american'))).toBe('10.0 mi');
  });

  it('−40 °C is −40 °F and 100 °C is 212 °F, with a true minus sign', () => {
    expect(plain(show(-40, 'mean_temp_c', 'american'))).toBe('\u221240.0 °F');
    expect(plain(show(100, 'mean_temp_c', 'american'))).toBe('212.0 °F');
  });

  it('a gap is said as the trade says it: 4.8 mm is 3/16 in, 6.4 mm is 1/4 in', () => {
    expect(plain(show(4.8, 'gap_asked_mm', 'american'))).toBe('3/16 in');
    expect(plain(show(6.4, 'gap_asked_mm', 'american'))).toBe('1/4 in');
    expect(plain(show(10, 'gap_mm', 'american'))).toBe('0.39 in');
    expect(plain(show(4.8, 'gap_mm', 'metric'))).toBe('4.8 mm');
  });

  it('an index has no unit and two decimals in either system', () => {
    expect(show(42.166, 'index', 'metric')).toBe('42.17');
    expect(show(42.166, 'index', 'american')).toBe('42.17');
  });

  it('a probability never claims certainty', () => {
    expect(show(0.0004, 'p_rain_over_threshold', 'metric')).toBe('< 0.01');
    expect(show(0.9987, 'p_rain_over_threshold', 'metric')).toBe('> 0.99');
    expect(show(0.767, 'p_rain_over_threshold', 'metric')).toBe('0.77');
  });

  it('a year has no thousands separator', () => {
    expect(show(1998, 'year_built', 'metric')).toBe('1998');
  });

  it('a missing value is *no record*, whatever its column', () => {
    for (const value of [null, undefined, '', Number.NaN]) {
      expect(show(value, 'rain_mm', 'metric')).toBe(noRecord);
      expect(money(value, 'USD')).toBe(noRecord);
      expect(ledgerValue(value, 'mm', 'metric')).toBe(noRecord);
    }
  });

  it('a zero is a zero and not a missing value', () => {
    expect(plain(show(0, 'rain_mm', 'metric'))).toBe('0.0 mm');
  });

  it('a negative number that rounds to zero loses its sign', () => {
    expect(digits(-0.004, 2)).toBe('0.00');
    expect(digits(-0.006, 2)).toBe('\u22120.01');
  });

  it('money keeps the currency of its row and says when there is none', () => {
    expect(plain(money(4650000, 'CAD'))).toBe('4,650,000 CAD');
    expect(plain(money(4650000, null))).toBe('4,650,000 no currency');
  });

  it('every kind of quantity has a figure in both systems', () => {
    for (const kind of Object.keys(quantities) as (keyof typeof quantities)[]) {
      for (const units of ['metric', 'american'] as const) {
        expect(joined(figureOf(0.5, kind, units))).toMatch(/^[\d,./]+/);
      }
    }
  });
});

describe('directions', () => {
  it('a wall faces a point of the compass and its degrees; 360 is north again', () => {
    expect(facing(0)).toBe('N, 0°');
    expect(facing(360)).toBe('N, 360°');
    expect(facing(225)).toBe('SW, 225°');
    expect(facing(349)).toBe('N, 349°');
    expect(facing(null)).toBe(noRecord);
  });
});

describe('ledger values', () => {
  it('an American ledger keeps the metric figure in which its formula holds', () => {
    expect(plain(ledgerValue(508, 'mm per year', 'american'))).toBe('20.0 in (508 mm per year)');
    expect(plain(ledgerValue(508, 'mm per year', 'metric'))).toBe('508 mm per year');
  });

  it('a unit that has no American twin, and the unit 1, are left alone', () => {
    expect(plain(ledgerValue(0.2, 'kg·s/(m³·mm)', 'american'))).toBe('0.2 kg·s/(m³·mm)');
    expect(ledgerValue(1.3, '1', 'metric')).toBe('1.3');
  });

  it('a year in a ledger is not written as a thousand', () => {
    expect(plain(ledgerValue(2026, 'year', 'metric'))).toBe('2026 year');
  });
});

describe('counts', () => {
  it('one is singular, the rest plural, thousands separated', () => {
    expect(counted(1, 'row')).toBe('1 row');
    expect(counted(0, 'row')).toBe('0 rows');
    expect(counted(12000, 'row')).toBe('12,000 rows');
  });
});
