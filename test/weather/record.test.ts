import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Refusal } from '../../analysis/read/outcome.ts';
import { drivenSums, drivingRain, rainWeightedWind } from '../../analysis/weather/record.ts';
import { airfieldSumAt, facing, kappaAt, total } from '../../analysis/weather/rose.ts';
import { drivingRainClass } from '../../analysis/weather/tables.ts';
import { tally } from '../../analysis/weather/tally.ts';
import { type Hour, hoursOf, read, recordFile, recordOf, reference } from './hours.ts';

const { ten } = reference;
const tenHours: Hour[] = ten.rain.map((rain: number, i: number) => ({
  rain,
  speed: ten.speed[i],
  direction: ten.direction[i],
}));
const hours = hoursOf(tenHours);
const azimuths = [0, 90, 180, 220, 270];

/** To the last digit given: half a unit of it. */
const toDigits = (value: number, given: string) => {
  expect(value.toFixed(given.split('.')[1]!.length)).toBe(given);
};

// The figures are those of the method's reference table; test/reference/weather/reference.R computes them again.
describe('ten hours, computed in R', () => {
  test('the airfield sum of ISO 15927-3 comes out at five azimuths', () => {
    const given = ['0.236366934', '0.914616139', '11.5162855', '13.0842875', '6.67264117'];
    azimuths.forEach((azimuth, i) => {
      toDigits(airfieldSumAt(drivenSums(hours), azimuth), given[i]!);
      expect(airfieldSumAt(drivenSums(hours), azimuth)).toBeCloseTo(ten.airfield_sum_mm[i], 12);
    });
  });

  test('the wind during rain is weighted by rain: 5.984848 m/s, and never the plain mean of wet hours', () => {
    toDigits(rainWeightedWind(hours), '5.984848');
    expect(rainWeightedWind(hours)).toBeCloseTo(ten.wind_in_rain, 12);
    expect(ten.plain_mean).toBe(4.6875);
    const found = drivingRain(recordOf(hours));
    expect([found.windInRain, found.meanWind]).not.toContain(4.6875);
    expect(found.meanWind).toBe(4.75);
  });

  test('κ comes out at five azimuths, and the published table holds the same ten decimals', () => {
    const given = ['0.0124659209', '0.0531645570', '0.7287106019', '0.8320496505', '0.4281940668'];
    const { kappaByDegree } = drivingRain(recordOf(hours));
    azimuths.forEach((azimuth, i) => {
      toDigits(kappaAt(drivenSums(hours), azimuth), given[i]!);
      expect(kappaAt(drivenSums(hours), azimuth)).toBeCloseTo(ten.kappa[i], 12);
      expect(kappaByDegree[azimuth]).toBe(Number(given[i]));
    });
  });

  test('0.2 · 0.35 · κ · U · Σ r is the sum over the hours', () => {
    const given = ['0.06893654271', '0.294', '4.029769629', '4.601234567', '2.36791319'];
    azimuths.forEach((azimuth, i) => {
      const { driven } = tally(hours);
      const wetting =
        0.2 * 0.35 * kappaAt(drivenSums(hours), azimuth) * rainWeightedWind(hours) * driven.mm;
      // The fourth figure is given to nine decimals as 4.601234567, R has 4.60123456727.
      toDigits(wetting, given[i]!);
      expect(wetting).toBeCloseTo(ten.wetting_l_m2[i], 12);
    });
  });

  test('less than a year is not blown up to a year: sums stay sums and no class is given', () => {
    const found = drivingRain(recordOf(hours));
    expect(found.dividedBy).toBe(1);
    expect(found.rose.airfieldIndex[22]).toBe(13.084288);
    expect(found.rainMm).toBe(13.2);
    expect(found.index).toEqual({ m2PerS: 0.0627, class: null });
    expect(found.notes[0]).toBe(
      'under 0.1 years: not an annual average. There is less than a year, so figures are sums over the record and no class is given.',
    );
  });
});

test('one hour of 2 mm at 5 m/s straight at the wall is (2/9) · 5 · 2^(8/9) = 2.057499 (ISO 15927-3 form, by hand)', () => {
  const hour = hoursOf([{ rain: 2, speed: 5, direction: 200 }]);
  expect(airfieldSumAt(drivenSums(hour), 200)).toBeCloseTo(2.057499, 6);
  expect(airfieldSumAt(drivenSums(hour), 290)).toBeCloseTo(0, 12);
  expect(airfieldSumAt(drivenSums(hour), 20)).toBe(0);
});

test('wind evenly from all around gives κ = 1/π at every azimuth (integral of max(0; cos)/2π)', () => {
  const even = hoursOf(
    Array.from({ length: 3600 }, (_, i) => ({ rain: 1, speed: 3, direction: i / 10 })),
  );
  const { kappaByDegree } = drivingRain(recordOf(even));
  for (const kappa of kappaByDegree) expect(kappa).toBeCloseTo(1 / Math.PI, 6);
});

describe('Newark Airport, 50 hours of January 2013 (NOAA, through nycflights13), computed in R', () => {
  const { newark } = reference;

  test('inches, miles per hour and Fahrenheit come out as in R, two hours at 32 °F counted as frozen', async () => {
    const record = await read(recordFile('newark.csv'));
    const found = drivingRain(record);
    expect([record.rowsRead, record.hours.n]).toEqual([newark.hours, newark.hours]);
    expect(found.tally.frozen.hours).toBe(newark.frozen_hours);
    expect(found.frozenMm).toBeCloseTo(newark.frozen_mm, 4);
    expect(found.rainMm).toBeCloseTo(newark.rain_mm, 4);
    expect(found.windInRain).toBeCloseTo(newark.wind_in_rain, 8);
    expect(found.meanWind).toBeCloseTo(newark.mean_wind, 8);
    newark.theta.forEach((_: number, i: number) => {
      expect(found.rose.kappa[i]).toBeCloseTo(newark.kappa[i], 9);
      expect(found.rose.airfieldIndex[i]).toBeCloseTo(newark.airfield_sum_mm[i], 5);
    });
  });
});

const someHours = fc.array(
  fc.record({
    rain: fc.integer({ min: 0, max: 300 }).map((tenths) => tenths / 10),
    speed: fc.integer({ min: 0, max: 300 }).map((tenths) => tenths / 10),
    direction: fc.integer({ min: 0, max: 359 }),
  }),
  { minLength: 1, maxLength: 60 },
);
const driving = (some: Hour[]) => total(drivenSums(hoursOf(some)).rainWind) > 1e-6;

describe('any record', () => {
  test('Σ 0.2 F_E F_D r v cos⁺ = 0.2 F_E F_D κ U Σ r, to 1e-12', () => {
    fc.assert(
      fc.property(someHours, fc.integer({ min: 0, max: 359 }), (some, azimuth) => {
        fc.pre(driving(some));
        const these = hoursOf(some);
        const direct = some.reduce((sum, { rain, speed, direction }) => {
          const cosine = Math.cos(((direction - azimuth) * Math.PI) / 180);
          return sum + 0.2 * 1.3 * 0.5 * rain * speed * Math.max(0, cosine);
        }, 0);
        const sums = drivenSums(these);
        const { mm } = tally(these).driven;
        const through = 0.2 * 1.3 * 0.5 * kappaAt(sums, azimuth) * rainWeightedWind(these) * mm;
        expect(Math.abs(through - direct)).toBeLessThanOrEqual(1e-12 * Math.max(1, direct));
      }),
      { seed: 2, numRuns: 200 },
    );
  });

  test('turning every wind turns κ and the airfield index with it', () => {
    fc.assert(
      fc.property(someHours, fc.nat(359), fc.nat(359), (some, turn, azimuth) => {
        fc.pre(driving(some));
        const sums = drivenSums(hoursOf(some));
        const turned = drivenSums(
          hoursOf(some.map((h) => ({ ...h, direction: (h.direction + turn) % 360 }))),
        );
        expect(kappaAt(turned, azimuth + turn)).toBeCloseTo(kappaAt(sums, azimuth), 12);
        expect(airfieldSumAt(turned, azimuth + turn)).toBeCloseTo(airfieldSumAt(sums, azimuth), 9);
      }),
      { seed: 3, numRuns: 100 },
    );
  });

  test('mirroring every wind about north mirrors κ', () => {
    fc.assert(
      fc.property(someHours, fc.nat(359), (some, azimuth) => {
        fc.pre(driving(some));
        const sums = drivenSums(hoursOf(some));
        const mirrored = drivenSums(
          hoursOf(some.map((h) => ({ ...h, direction: (360 - h.direction) % 360 }))),
        );
        expect(kappaAt(mirrored, -azimuth)).toBeCloseTo(kappaAt(sums, azimuth), 12);
      }),
      { seed: 4, numRuns: 100 },
    );
  });

  test('two walls back to back meet Σ f |cos| between them, the shares of the sectors add up to 1', () => {
    fc.assert(
      fc.property(someHours, fc.nat(359), (some, azimuth) => {
        fc.pre(driving(some));
        const sums = drivenSums(hoursOf(some));
        const both = kappaAt(sums, azimuth) + kappaAt(sums, azimuth + 180);
        const cosines = sums.directionDeg.map((d) =>
          Math.abs(Math.cos(((d - azimuth) * Math.PI) / 180)),
        );
        const expected = total(cosines.map((c, i) => c * sums.rainWind[i]!)) / total(sums.rainWind);
        expect(both).toBeCloseTo(expected, 12);
        const { sectors } = drivingRain(recordOf(hoursOf(some))).rose;
        expect(sectors.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 8);
      }),
      { seed: 5, numRuns: 100 },
    );
  });
});

describe('hours that count apart', () => {
  const plain: Hour[] = [
    { rain: 1, speed: 4, direction: 180 },
    { rain: 2, speed: 6, direction: 270 },
  ];
  const of = (...more: Hour[]) => drivingRain(recordOf(hoursOf([...plain, ...more])));

  test('precipitation at 0 °C or below is frozen: it changes no figure of rain, its wind stays in the mean of all hours', () => {
    const frozen = of({ rain: 9, speed: 8, direction: 0, temperature: 0 });
    const without = of();
    expect(frozen.rose.kappa).toEqual(without.rose.kappa);
    expect(frozen.rose.airfieldIndex).toEqual(without.rose.airfieldIndex);
    expect([frozen.windInRain, frozen.rainMm]).toEqual([without.windInRain, without.rainMm]);
    expect(frozen.frozenMm).toBe(9);
    expect(frozen.meanWind).toBe(6);
    expect(frozen.notes.join(' ')).toContain(
      'Left out of every figure of rain: 1 hour with precipitation at or below 0 °C (9.0 mm).',
    );
    expect(of({ rain: 9, speed: 8, direction: 0, temperature: 0.1 }).frozenMm).toBe(0);
  });

  test('without a direction an hour counts in U and the rain, not in κ, the sectors or the airfield index', () => {
    const unknown = of({ rain: 3, speed: 2, direction: Number.NaN });
    const without = of();
    expect(unknown.rose.kappa).toEqual(without.rose.kappa);
    expect(unknown.rose.sectors).toEqual(without.rose.sectors);
    expect(unknown.rose.airfieldIndex).toEqual(without.rose.airfieldIndex);
    expect(unknown.windInRain).toBeCloseTo((1 * 4 + 2 * 6 + 3 * 2) / 6, 9);
    expect(unknown.rainMm).toBe(6);
    expect(unknown.rose.directionless).toBeCloseTo(6 / 22, 9);
    expect(unknown.notes.join(' ')).toContain('In 1 hour with rain the wind has no direction');
  });

  test('a calm hour with rain counts in U with a wind of 0, and no direction is missed', () => {
    const calm = of({ rain: 3, speed: 0, direction: Number.NaN });
    expect(calm.windInRain).toBeCloseTo(16 / 6, 9);
    expect(calm.rose.directionless).toBe(0);
  });

  test('rain without a wind speed counts as rain and in no figure of wind', () => {
    const windless = of({ rain: 3, speed: Number.NaN, direction: 90 });
    expect(windless.rainMm).toBe(6);
    expect(windless.windInRain).toBe(of().windInRain);
    expect(windless.rose.kappa).toEqual(of().rose.kappa);
    expect(windless.notes.join(' ')).toContain('In 1 hour with rain the wind speed is missing.');
  });

  test('a record in which no hour has rain, wind and a direction is refused in words', () => {
    const frozen = hoursOf([{ rain: 1, speed: 4, direction: 180, temperature: -2 }]);
    expect(() => drivingRain(recordOf(frozen))).toThrow(Refusal);
    expect(() => drivingRain(recordOf(frozen))).toThrow('no hour with rain above 0 °C, wind, and');
  });
});

test('the driving-rain index is sheltered below 3, moderate from 3 to 7 and severe above 7 m²/s (from memory of BRE Digest 127)', () => {
  expect([0, 2.999, 3, 7, 7.001, 20].map(drivingRainClass)).toEqual([
    'sheltered',
    'sheltered',
    'moderate',
    'moderate',
    'severe',
    'severe',
  ]);
});

test('a wall that faces the wind meets all of it, at 60° half, and nothing from behind (by hand)', () => {
  const one = [Float64Array.of(200), Float64Array.of(3)] as const;
  expect(facing(...one, 200)).toBe(3);
  expect(facing(...one, 260)).toBeCloseTo(1.5, 12);
  expect(facing(...one, 20)).toBe(0);
});
