import { describe, expect, test } from 'vitest';
import { refusal as refused } from '../read/sources.ts';
import { fileText, metric, read } from './hours.ts';

const refusal = (text: string) => refused(read(text));

describe('cells', () => {
  const first = async (row: string, heads = metric) => {
    const { hours, noted, setAside } = await read(fileText(heads, [row, '1,4,180,9']));
    const { rain, speed, direction, temperature, trace, variable } = hours;
    return {
      rain: rain[0],
      speed: speed[0],
      direction: direction[0],
      temperature: temperature[0],
      trace: trace[0],
      variable: variable[0],
      codes: [...noted, ...setAside].filter(({ row }) => row === 2).map(({ code }) => code),
    };
  };
  const withTemperature = `${metric},temperature (°C)`;

  test('a trace counts as 0 mm and is remembered', async () => {
    expect(await first('T,4,180,5', withTemperature)).toMatchObject({
      rain: 0,
      trace: 1,
      codes: [],
    });
  });

  test('calm is written 0/000, as a word, or with no direction', async () => {
    expect(await first('1,0,000,5', withTemperature)).toMatchObject({ speed: 0, direction: 0 });
    expect(await first('1,,CALM,5', withTemperature)).toMatchObject({
      speed: 0,
      direction: Number.NaN,
      codes: [],
    });
    expect(await first('1,calm,,5', withTemperature)).toMatchObject({ speed: 0, codes: [] });
  });

  test('a variable wind has no direction and is remembered; its speed stands', async () => {
    expect(await first('1,3,VRB,5', withTemperature)).toMatchObject({
      speed: 3,
      direction: Number.NaN,
      variable: 1,
      codes: [],
    });
  });

  test('360 is north, and so are N and 0', async () => {
    for (const north of ['360', '0', 'N', '360.0']) {
      expect((await first(`1,4,${north},5`, withTemperature)).direction).toBe(0);
    }
    expect((await first('1,4,SSW,5', withTemperature)).direction).toBe(202.5);
  });

  test.each(['', 'M', 'NA', '-9999', '9999.0', '999.9', '///'])(
    'a cell "%s" is no reading and nothing is said',
    async (blank) => {
      const cells = await first(`${blank},${blank},${blank},${blank}`, withTemperature);
      expect(cells).toMatchObject({
        rain: Number.NaN,
        speed: Number.NaN,
        direction: Number.NaN,
        temperature: Number.NaN,
        codes: [],
      });
    },
  );

  test.each([
    [
      'damp,4,180,5',
      'weather-not-number',
      '"damp" under "rain (mm)" cannot be read, so the hour counts as without it',
    ],
    [
      '-0.3,4,180,5',
      'weather-range',
      '"-0.3" under "rain (mm)" lies outside 0 to 500 mm in an hour',
    ],
    ['1,400,180,5', 'weather-range', 'lies outside 0 to 80 m/s'],
    ['1,4,400,5', 'weather-range', 'lies outside 0 to 360 degrees'],
    ['1,4,upwards,5', 'weather-not-number', 'or VRB'],
    ['1,4,180,warm', 'weather-not-number', '"warm" under "temperature (°C)"'],
  ])('%s is noted with row, column, value and what to do', async (row, code, words) => {
    const { noted } = await read(fileText(withTemperature, [row, '1,4,180,5']));
    expect(noted.map((n) => [n.file, n.row, n.code])).toEqual([['airfield.csv', 2, code]]);
    expect(noted[0]!.message).toContain(words);
  });

  test('a comma may stand before decimals where semicolons part the cells', async () => {
    const { hours } = await read(
      'time;rain (mm);wind speed (m/s);wind dir\n2019-01-01 00:00;0,4;3,5;180\n',
    );
    expect([hours.rain[0], hours.speed[0]]).toEqual([0.4, 3.5]);
  });
});

describe('directions without a unit', () => {
  const heads = 'rain (mm),wind speed (m/s),wind dir';
  const directions = async (...values: string[]) =>
    read(
      fileText(
        heads,
        values.map((d) => `1,4,${d}`),
      ),
    );

  test('are tens of degrees where they are whole and none is above 36', async () => {
    const { hours, understood } = await directions('0', '9', '36', 'VRB');
    expect([...hours.direction]).toEqual([0, 90, 0, Number.NaN]);
    expect(understood[3]).toContain('in tens of degrees (whole numbers, none above 36)');
  });

  test.each([[['9', '37']], [['9.5', '36']], [['0', '0']], [['9', 'NNE']]])(
    'are degrees otherwise: %j',
    async (values) => {
      const { understood } = await directions(...values);
      expect(understood[3]).toContain('in degrees;');
    },
  );

  test('headed in degrees but plainly in tens, the file is refused', async () => {
    const rows = Array.from({ length: 120 }, (_, i) => `1,4,${1 + (i % 36)}`);
    expect(await refusal(fileText(metric, rows))).toContain('they seem to be tens of degrees');
    expect((await read(fileText(metric, rows.slice(0, 50)))).hours.direction[8]).toBe(9);
  });
});
