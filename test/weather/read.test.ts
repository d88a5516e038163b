import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { drivingRain } from '../../analysis/weather/record.ts';
import { refusal as refused } from '../read/sources.ts';
import { fileText, metric, read, recordFile, reference } from './hours.ts';

const refusal = (text: string) => refused(read(text));
const wet = (n: number, row = '1,4,180') => new Array<string>(n).fill(row);

describe('an airfield record with the dirt of airfield files, its figures computed in R before the dirt was put on', () => {
  const { airfield } = reference;

  test('every row read is an hour used or set aside with its reason', async () => {
    const record = await read(recordFile('airfield.csv'));
    expect(record.rowsRead).toBe(airfield.rows);
    expect(record.setAside.length).toBe(airfield.set_aside);
    expect(record.hours.n + record.setAside.length).toBe(record.rowsRead);
    expect(record.setAside.map(({ code }) => code)).toEqual(new Array(5).fill('repeat-hour'));
    expect(record.outOfOrder).toBeGreaterThan(0);
    expect([...record.hours.hour]).toEqual([...record.hours.hour].sort((a, b) => a - b));
  });

  test('counts of missing, trace, calm, variable and frozen hours are those of R', async () => {
    const { tally, coverage } = drivingRain(await read(recordFile('airfield.csv')));
    expect({
      absent: tally.span - tally.present,
      without_rain: tally.withoutRain,
      trace: tally.trace,
      variable: tally.variable,
      calm: tally.calm,
      frozen_hours: tally.frozen.hours,
      directionless_hours: tally.directionless.hours,
      wet_without_speed: tally.wetWithoutSpeed.hours,
    }).toEqual({
      absent: airfield.absent,
      without_rain: airfield.without_rain,
      trace: airfield.trace,
      variable: airfield.variable,
      calm: airfield.calm,
      frozen_hours: airfield.frozen_hours,
      directionless_hours: airfield.directionless_hours,
      wet_without_speed: airfield.wet_without_speed,
    });
    expect(coverage.years).toBeCloseTo(airfield.years, 12);
    for (const key of ['calm', 'variable', 'trace', 'frozen_hours']) {
      expect(airfield[key], key).toBeGreaterThan(0);
    }
  });

  test('rain, U, mean wind, κ and the airfield sums are those of R', async () => {
    const found = drivingRain(await read(recordFile('airfield.csv')));
    expect(found.rainMm).toBeCloseTo(airfield.rain_mm, 4);
    expect(found.frozenMm).toBeCloseTo(airfield.frozen_mm, 4);
    expect(found.windInRain).toBeCloseTo(airfield.wind_in_rain, 8);
    expect(found.meanWind).toBeCloseTo(airfield.mean_wind, 8);
    expect(found.rose.directionless).toBeCloseTo(airfield.directionless_share, 9);
    airfield.theta.forEach((_: number, i: number) => {
      expect(found.rose.kappa[i]).toBeCloseTo(airfield.kappa[i], 9);
      expect(found.rose.airfieldIndex[i]).toBeCloseTo(airfield.airfield_sum_mm[i], 5);
    });
  });

  test('the order of the rows changes nothing but what is said about it', async () => {
    const [heads, ...rows] = recordFile('newark.csv').trim().split('\n');
    const inOrder = await read([heads, ...rows].join('\n'));
    await fc.assert(
      fc.asyncProperty(fc.shuffledSubarray(rows, { minLength: rows.length }), async (shuffled) => {
        const record = await read([heads, ...shuffled].join('\n'));
        expect(record.hours).toEqual(inOrder.hours);
      }),
      { seed: 9, numRuns: 20 },
    );
  });
});

describe('headings', () => {
  const dated = (heads: string, row: string) =>
    read(`${heads}\n2019-01-01 00:00,${row}\n2019-01-01 01:00,${row}\n`);

  test.each([
    ['time,rain (mm),wind speed (m/s),wind direction (deg)', '1,10,90', [1, 10, 90]],
    [
      'Date/Time (LST),Precip. Amount (mm),Wind Spd (km/h),Wind Dir (10s deg)',
      '1,36,9',
      [1, 10, 90],
    ],
    [
      'DATE TIME,Hourly Precipitation (in),Wind Speed (mph),Wind Direction (°)',
      '1,10,90',
      [25.4, 4.4704, 90],
    ],
    ['valid,p01i,sknt,drct', '1,10,90', [25.4, (10 * 1852) / 3600, 90]],
    ['timestamp,rain_mm,wind_speed_m_s,wind_dir_deg', '1,10,90', [1, 10, 90]],
    ['observed,Rain 0.01 in,Mean wind speed at 10 m (kt),wind direction true (deg)', '', null],
    ['time,rainfall (tenths of mm),ws (kts),wd', '12,10,90', [1.2, (10 * 1852) / 3600, 90]],
  ] as const)('%s', async (heads, row, expected) => {
    if (expected === null) {
      expect(await refused(dated(heads, row))).toContain('no column for wind direction');
      return;
    }
    const { hours } = await dated(heads, row);
    [hours.rain, hours.speed, hours.direction].forEach((column, i) => {
      expect(column[0]).toBeCloseTo(expected[i]!, 10);
    });
  });

  test('a date and an hour may stand in two columns', async () => {
    const { hours } = await read(
      'date,hour,rain (mm),wind (m/s),wind dir\n2019-01-01,23,1,4,180\n2019-01-01,24,1,4,180\n',
    );
    expect([...hours.hour]).toEqual([24 * 17_897 + 23, 24 * 17_898]);
  });

  test('lines of text above the headings are passed over, and rows keep their numbers', async () => {
    const text = `Station: Example Field\nAll times local\n\n${fileText(metric, ['1,4,180', 'wet,4,180'])}`;
    const { noted, rowsRead } = await read(text);
    expect(rowsRead).toBe(2);
    expect(noted.map(({ row }) => row)).toEqual([6]);
  });

  test('how columns were read is said, one sentence each', async () => {
    const { understood } = await read(fileText(`${metric},temp (°F)`, wet(3, '1,4,180,50')));
    expect(understood).toEqual([
      'Time: "time", as written, one row an hour.',
      'Rain: "rain (mm)", in mm.',
      'Wind speed: "wind speed (m/s)", in m/s.',
      'Wind direction: "wind direction (deg)", in degrees; the direction the wind comes from.',
      'Temperature: "temp (°F)", in °F.',
    ]);
  });

  test.each([
    [
      'without rain',
      'time,wind speed (m/s),wind dir',
      'has no column for rain, so it says nothing about driven rain',
    ],
    ['without wind speed', 'time,rain (mm),wind dir', 'has no column for wind speed'],
    [
      'without wind direction',
      'time,rain (mm),wind speed (m/s)',
      'has no column for wind direction',
    ],
    ['without a time', 'rain (mm),wind speed (m/s),wind dir', 'has no column for the time'],
    [
      'whose rain names no unit',
      'time,rain,wind speed (m/s),wind dir',
      'The heading "rain" of airfield.csv names no unit',
    ],
    [
      'with two columns of rain',
      'time,rain (mm),precip (mm),wind speed (m/s),wind dir',
      'more than one column for rain: "rain (mm)", "precip (mm)"',
    ],
  ])('a file %s is refused in words', async (_, heads, words) => {
    expect(await refusal(`${heads}\n2019-01-01 00:00,1,4,180,0\n`)).toContain(words);
  });
});

describe('times', () => {
  const heads = `time,${metric}`;
  const at = (times: string[]) => `${heads}\n${times.map((t) => `${t},1,4,180`).join('\n')}\n`;

  test('a row without a readable time is set aside', async () => {
    const { setAside, hours, rowsRead } = await read(
      at(['2019-01-01 00:00', 'noon', '2019-01-01 01:00', '2019-01-02']),
    );
    expect(setAside.map(({ row, column, value, code }) => [row, column, value, code])).toEqual([
      [3, 'time', 'noon', 'not-time'],
      [5, 'time', '2019-01-02', 'date-only'],
    ]);
    expect(hours.n + setAside.length).toBe(rowsRead);
  });

  test('a repeated hour is set aside with the row that stands', async () => {
    const { setAside } = await read(
      at(['2019-01-01 00:00', '2019-01-01 01:00', '2019-01-01 00:00', '2019-01-01 02:00']),
    );
    expect(setAside[0]!.message).toBe(
      'Row 4 of airfield.csv: the hour 2019-01-01 00:00 already stands in row 2. Keep one row for it.',
    );
  });

  test('of several reports in an hour the routine one stands, wherever it is in the file', async () => {
    const times = ['00:53', '01:20', '01:53', '02:53', '03:53'].map((t) => `2019-01-01 ${t}`);
    const { setAside } = await read(at(times));
    expect(setAside.map(({ row }) => row)).toEqual([3]);
  });

  test('dates are read day first where only that makes an hourly record, also when no day is above 12', async () => {
    const dayFirst = at(['04/03/2019 22:00', '04/03/2019 23:00', '05/03/2019 00:00']);
    const { hours, understood } = await read(dayFirst);
    expect([...hours.hour].map((h) => h - hours.hour[0]!)).toEqual([0, 1, 2]);
    expect(understood[0]).toContain('dates read day first');
    const monthFirst = at(['04/03/2019 22:00', '04/03/2019 23:00', '04/04/2019 00:00']);
    expect((await read(monthFirst)).understood[0]).toContain('dates read month first');
  });

  test('a date that exists only in the other order is set aside', async () => {
    const times = ['04/30/2019 22:00', '04/30/2019 23:00', '05/01/2019 00:00', '31/05/2019 01:00'];
    const { setAside } = await read(at(times));
    expect(setAside.map(({ row, value }) => [row, value])).toEqual([[5, '31/05/2019 01:00']]);
  });

  test('a file twice over loses its second half, not the whole', async () => {
    const rows = ['2019-01-01 00:00', '2019-01-01 01:00', '2019-01-01 02:00'];
    const { hours, setAside } = await read(at([...rows, ...rows]));
    expect([hours.n, setAside.length]).toEqual([3, 3]);
  });

  test.each([
    [
      'half-hourly',
      ['2019-01-01 00:00', '2019-01-01 00:30', '2019-01-01 01:00', '2019-01-01 01:30'],
      'is no hourly record: 2 of its 4 rows',
    ],
    [
      'three-hourly',
      ['2019-01-01 00:00', '2019-01-01 03:00', '2019-01-01 06:00'],
      'its rows are mostly 3 hours apart',
    ],
    ['daily', ['2019-01-01', '2019-01-02', '2019-01-03'], 'has no time of day'],
    ['without rows', [], 'has headings but no rows below them'],
  ])('a %s file is refused in words', async (_, times, words) => {
    expect(await refusal(at(times))).toContain(words);
  });
});

describe('rain', () => {
  test('a column without any value, or without any rain, is refused in words', async () => {
    expect(await refusal(fileText(metric, wet(3, ',4,180')))).toContain(
      'no readable value under "rain (mm)"',
    );
    expect(await refusal(fileText(metric, wet(3, '0,4,180')))).toContain(
      'no hour with rain under "rain (mm)"',
    );
  });
});

test('rows that are no rows are set aside: too many cells, a stray quotation mark', async () => {
  const { setAside, rowsRead, hours } = await read(
    fileText(metric, [
      '1,4,180',
      '1,4,180,9,9',
      '1,"4" x\n2019-01-01 02:00,1",4,180',
      '1,4,180',
      '1,4,180',
    ]),
  );
  expect(setAside.map(({ code }) => code)).toEqual(['too-many-cells', 'stray-quote']);
  expect(hours.n + setAside.length).toBe(rowsRead);
});
