import { readFileSync } from 'node:fs';
import { readWeather, type WeatherRecord } from '../../analysis/weather/read.ts';
import type { Hours } from '../../analysis/weather/settle.ts';
import { fileOf } from '../rain/grids.ts';

/** What R found (test/reference/weather/reference.R). */
export const reference = JSON.parse(
  readFileSync(new URL('../reference/weather/reference.json', import.meta.url), 'utf8'),
);

export const recordFile = (name: string): string =>
  readFileSync(new URL(`../reference/weather/${name}`, import.meta.url), 'utf8');

export interface Hour {
  readonly rain: number;
  readonly speed: number;
  readonly direction: number;
  readonly temperature?: number;
  /** Hours from 1970-01-01; one after the other where left out. */
  readonly hour?: number;
}

/** Hours for tests, from 2019-01-01 00:00 on. */
export function hoursOf(hours: readonly Hour[]): Hours {
  const take = (value: (hour: Hour, i: number) => number) => Float64Array.from(hours, value);
  const first = 24 * 17_897;
  return {
    n: hours.length,
    hour: take(({ hour }, i) => hour ?? first + i),
    rain: take(({ rain }) => rain),
    speed: take(({ speed }) => speed),
    direction: take(({ direction }) => direction),
    temperature: take(({ temperature }) => temperature ?? Number.NaN),
    trace: take(() => 0),
    variable: take(() => 0),
  };
}

export const recordOf = (hours: Hours, rest: Partial<WeatherRecord> = {}): WeatherRecord => ({
  file: 'airfield.csv',
  rowsRead: hours.n,
  hours,
  hasTemperature: true,
  outOfOrder: 0,
  understood: [],
  setAside: [],
  noted: [],
  ...rest,
});

export const read = (text: string): Promise<WeatherRecord> =>
  readWeather(fileOf(text, 'airfield.csv'));

const two = (n: number) => String(n).padStart(2, '0');

/** A file with one row an hour from 2019-01-01 00:00: the cells after the time, row by row. */
export const fileText = (heads: string, rows: readonly string[]): string =>
  [
    `time,${heads}`,
    ...rows.map((row, i) => `2019-01-${two(1 + Math.floor(i / 24))} ${two(i % 24)}:00,${row}`),
  ].join('\n');

export const metric = 'rain (mm),wind speed (m/s),wind direction (deg)';
