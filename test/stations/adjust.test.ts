import { describe, expect, test } from 'vitest';
import { chanceOver, rainInterval } from '../../analysis/rain/interval.ts';
import { adjustRain, rainFlags, stationWeights } from '../../analysis/stations/adjust.ts';
import { ownStations } from '../../analysis/stations/fit.ts';
import { adjusting, rainAt, region, stationsOf } from './scene.ts';

const country = region(60, 41, [-120, 28, -75, 48]);
const many = region(620, 42, [-120, 28, -75, 48]);
const towns = region(200, 43, [-125, 25, -70, 50]);

type Place = { readonly longitude: number; readonly latitude: number; readonly gridMm: number };

const adjust = (fit: ReturnType<typeof adjusting>, places: readonly Place[]) =>
  adjustRain(
    fit,
    Float64Array.from(places, (p) => p.longitude),
    Float64Array.from(places, (p) => p.latitude),
    Float64Array.from(places, (p) => p.gridMm),
  );

const fit = adjusting(stationsOf(country));
const local = adjusting(stationsOf(many));

describe('adjusted rain', () => {
  test('mm is e to the z, the interval lies around it, and all are rounded to their steps', () => {
    const { z, s, mm } = adjust(fit, towns);
    towns.forEach((_, t) => {
      expect(mm[t]).toBeCloseTo(Math.exp(z[t]!), 2);
      expect(mm[t]).toBe(Math.round(mm[t]! * 1e4) / 1e4);
      expect(s[t]).toBe(Math.round(s[t]! * 1e6) / 1e6);
      expect(z[t]).toBe(Math.round(z[t]! * 1e6) / 1e6);
      const { low, high } = rainInterval(mm[t]!, s[t]!);
      expect(low < mm[t]! && mm[t]! < high).toBe(true);
      expect(chanceOver(mm[t]!, s[t]!, mm[t]!)).toBe(0.5);
    });
  });

  test('comes nearer to the truth than the grid, from all stations and from the nearest', () => {
    const off = (mm: Float64Array) =>
      Math.sqrt(
        towns.reduce(
          (sum, p, t) => sum + Math.log(mm[t]! / rainAt(p.longitude, p.latitude).mm) ** 2,
          0,
        ) / towns.length,
      );
    const grid = off(Float64Array.from(towns, (p) => p.gridMm));
    const few = off(adjust(fit, towns).mm);
    const dense = off(adjust(local, towns).mm);
    expect(few).toBeLessThan(0.7 * grid);
    expect(dense).toBeLessThan(0.7 * few);
  });

  test('is the same whatever other places are asked for, and in whatever order', () => {
    for (const of of [fit, local]) {
      const all = adjust(of, towns);
      const turned = adjust(of, [...towns].reverse());
      expect([...turned.mm].reverse()).toEqual([...all.mm]);
      expect([...turned.s].reverse()).toEqual([...all.s]);
      expect(adjust(of, [towns[7]!]).mm[0]).toBe(all.mm[7]);
    }
  });

  test('a place without coordinates or without rain of the grid has none', () => {
    const known = towns[0]!;
    const { z, s, mm, flag } = adjust(fit, [
      { ...known, longitude: Number.NaN },
      { ...known, latitude: Number.NaN },
      { ...known, gridMm: Number.NaN },
      known,
    ]);
    for (const column of [z, s, mm]) {
      expect([...column].map(Number.isNaN)).toEqual([true, true, true, false]);
    }
    expect([...flag]).toEqual([0, 0, 0, 0]);
  });

  test('no place at all gives no rain at all', () => {
    expect(adjust(fit, []).mm.length).toBe(0);
    expect(adjust(local, []).mm.length).toBe(0);
  });

  test('longitudes a turn away are the same place', () => {
    const east = towns.map((p) => ({ ...p, longitude: p.longitude + 360 }));
    expect([...adjust(local, east).mm]).toEqual([...adjust(local, towns).mm]);
  });
});

describe('the spread s', () => {
  test('s² = λ² · kriging variance + ρ²', () => {
    const plain = adjust(fit, towns);
    const settings = { ...ownStations, rho: 0.3 };
    const wider = adjusting(stationsOf(country), { lambda: 1.5, settings, gridSd: 1 });
    const wide = adjust(wider, towns);
    const near = towns.filter((_, t) => plain.flag[t] === 0);
    expect(near.length).toBeGreaterThan(150);
    towns.forEach((_, t) => {
      if (plain.flag[t] === 0) expect(wide.s[t]).toBeCloseTo(Math.hypot(1.5 * plain.s[t]!, 0.3), 5);
    });
  });

  test('a period shift multiplies rain by its e and leaves s alone', () => {
    const settings = { ...ownStations, shift: 0.15 };
    const later = adjust(adjusting(stationsOf(country), { settings }), towns);
    const now = adjust(fit, towns);
    towns.forEach((_, t) => {
      expect(later.mm[t]! / now.mm[t]!).toBeCloseTo(Math.exp(0.15), 6);
    });
    expect([...later.s]).toEqual([...now.s]);
  });
});

describe('far from stations', () => {
  const away = Array.from({ length: 40 }, (_, i) => ({
    longitude: -75 + 2 * i,
    latitude: 40,
    gridMm: 800,
  }));

  test('drift only begins where the correlation with the nearest station falls below 0.2', () => {
    const { flag } = adjust(fit, away);
    const marked = flag.indexOf(1);
    const nearest = (i: number) =>
      stationWeights(fit, away[i]!.longitude, away[i]!.latitude, 800)[0]!.km;
    // exp(−h / 500 km) = 0.2 at h = 804.7 km.
    expect(nearest(marked - 1)).toBeLessThan(-500 * Math.log(0.2));
    expect(nearest(marked)).toBeGreaterThan(-500 * Math.log(0.2));
    expect([...flag.subarray(marked)].every((f) => f > 0)).toBe(true);
  });

  test('s is then at least s_grid', () => {
    const { s, flag } = adjust(adjusting(stationsOf(country), { sill: 0.001, gridSd: 0.3 }), away);
    s.forEach((x, t) => {
      if (flag[t] === 1) expect(x).toBe(0.3);
      else expect(x).toBeLessThan(0.3);
    });
    expect(flag.includes(1)).toBe(true);
  });

  test('s never falls on the way, and stays within twice s_grid', () => {
    const huddle = region(560, 44, [-123, 46, -120, 49]);
    const of = adjusting(stationsOf(huddle));
    const way = Array.from({ length: 60 }, (_, i) => ({
      longitude: -119.9 + i,
      latitude: 47.5,
      gridMm: huddle[0]!.gridMm * Math.exp(i / 20),
    }));
    const { s, mm, flag } = adjust(of, way);
    s.slice(1).forEach((x, t) => {
      expect(x).toBeGreaterThanOrEqual(s[t]! - 1e-6);
    });
    expect(rainFlags[flag.at(-1)!]).toBe('level of the stations only');
    expect(s.at(-1)).toBeCloseTo(2 * of.gridSd, 5);
    // The grid's value at the mean level of the stations.
    const level = huddle.reduce((sum, p) => sum + Math.log(p.mm / p.gridMm), 0) / huddle.length;
    expect(mm.at(-1)! / way.at(-1)!.gridMm).toBeCloseTo(Math.exp(level), 6);
  });
});

describe('the weights of one place', () => {
  test('come from all stations up to 500, from the 32 nearest of more, nearest first', () => {
    const town = towns[0]!;
    const of = (f: typeof fit) => stationWeights(f, town.longitude, town.latitude, town.gridMm);
    expect(of(fit).length).toBe(60);
    expect(of(local).length).toBe(32);
    for (const parts of [of(fit), of(local)]) {
      const km = parts.map((part) => part.km);
      expect(km).toEqual([...km].sort((a, b) => a - b));
    }
  });

  test('make the same rain as the run', () => {
    for (const [of, stations] of [
      [fit, country],
      [local, many],
    ] as const) {
      const { z, flag } = adjust(of, towns);
      towns.forEach((p, t) => {
        if (flag[t] === 2) return;
        const parts = stationWeights(of, p.longitude, p.latitude, p.gridMm);
        const ln = parts.reduce(
          (sum, { station, weight }) => sum + weight * Math.log(stations[station]!.mm),
          0,
        );
        expect(Math.abs(ln - z[t]!)).toBeLessThan(1e-6);
      });
    }
  });
});
