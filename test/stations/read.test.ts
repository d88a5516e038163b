import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitStations } from '../../analysis/stations/fit.ts';
import { readStations } from '../../analysis/stations/read.ts';
import { gridOf } from '../rain/grids.ts';
import { lines, refusal, sourceOf, utf16 } from '../read/sources.ts';

/** 800 mm in the west to 1600 mm in the east, 100° W to 90° W, 50° N to 40° N. */
const grid = gridOf(
  Array.from({ length: 11 }, () => Array.from({ length: 11 }, (_, c) => 800 + 80 * c)),
);

const read = (text: string | Uint8Array, sizes?: readonly number[]) =>
  readStations(sourceOf('gauges.csv', text, sizes), grid);
const refused = (text: string) => refusal(read(text));

const three = lines(
  'name,latitude,longitude,normal_mm,period',
  'North,48,-97,900.5,1991-2020',
  'Middle,45,-95,1000,1991-2020',
  'South,42,-93,1100,1991-2020',
);

describe('a file of stations', () => {
  test('gives a station a row, with what the grid says there', async () => {
    const { stations, ...rest } = await read(three);
    expect(rest).toEqual({
      file: 'gauges.csv',
      rowsRead: 3,
      accepted: 3,
      setAside: [],
      noted: [],
      heading: 'normal_mm',
      unit: 'mm',
      source: 'gauges.csv, column normal_mm',
      period: '1991-2020',
    });
    expect(stations.n).toBe(3);
    expect([...stations.latitude]).toEqual([48, 45, 42]);
    expect([...stations.longitude]).toEqual([-97, -95, -93]);
    expect([...stations.mm]).toEqual([900.5, 1000, 1100]);
    expect([...stations.gridMm]).toEqual([1040, 1200, 1360]);
    expect([...stations.row]).toEqual([2, 3, 4]);
    expect(stations.name).toEqual(['North', 'Middle', 'South']);
  });

  test('is read in the unit of its heading', async () => {
    const normal = async (heading: string, value: string) =>
      (await read(lines(`lat,lon,${heading}`, `45,-95,${value}`))).stations.mm[0];
    expect(await normal('normal_in', '40')).toBeCloseTo(1016, 10);
    expect(await normal('Annual precipitation (in)', '40')).toBeCloseTo(1016, 10);
    expect(await normal('rain_mm', '1016')).toBe(1016);
    expect(await normal('precip (cm)', '101.6')).toBeCloseTo(1016, 10);
    expect(await normal('Normal [mm]', '"1,040.5"')).toBe(1040.5);
  });

  test('finds the normals among other columns with units, by name', async () => {
    const file = await read(
      lines('id,lat,lon,elevation_m,annual_precip_in,years', 'K1,45,-95,310,41.2,1981-2010'),
    );
    expect(file).toMatchObject({ heading: 'annual_precip_in', unit: 'in', period: '1981-2010' });
  });

  test('comes in any delimiter, encoding and piece size', async () => {
    const { stations } = await read(three);
    const semicolons = three.replaceAll(',', ';').replaceAll('.', ',');
    for (const other of [
      await read(three.replaceAll(',', '\t')),
      await read(semicolons),
      await read(utf16(three, 'little')),
      await read(three, [1, 7, 3]),
    ]) {
      expect(other.stations).toEqual(stations);
    }
  });

  test('longitudes to 360 are turned to the west', async () => {
    const { stations } = await read(lines('lat,lon,normal_mm', '45,265,1000'));
    expect(stations.longitude[0]).toBe(-95);
  });

  test('names its periods, one, two, or how many', async () => {
    const of = async (...periods: string[]) =>
      (
        await read(
          lines(
            'lat,lon,normal_mm,period',
            ...periods.map((period, i) => `${42 + i},-95,1000,${period}`),
          ),
        )
      ).period;
    expect(await of('')).toBe('period not stated');
    expect(await of('1961-1990', '1991-2020', '')).toBe('1961-1990; 1991-2020');
    expect(await of('a', 'b', 'c')).toBe('3 periods, a among them');
  });
});

describe('rows that cannot be used are set aside with the reason', () => {
  const aside = async (row: string) => {
    const file = await read(`${three}${row}\n`);
    expect(file.accepted).toBe(3);
    expect(file.rowsRead).toBe(4);
    expect(file.setAside.length).toBe(1);
    return file.setAside[0]!;
  };

  test('a normal below 0, of 0, blank, or no number', async () => {
    expect(await aside('X,45,-94,-9999,')).toEqual({
      file: 'gauges.csv',
      row: 5,
      column: 'normal_mm',
      value: '-9999',
      code: 'station-negative',
      message:
        'Row 5 of gauges.csv: the normal "-9999" is below 0, which rain never is. If it means no data, leave the cell empty.',
    });
    expect((await aside('X,45,-94,0,')).message).toContain('the normal is 0');
    expect((await aside('X,45,-94,n/a,')).message).toContain('there is no normal');
    expect((await aside('X,45,-94,wet,')).message).toContain('"wet" is not a number');
  });

  test('a coordinate that is missing, no number, out of range, or both 0', async () => {
    expect((await aside('X,,-94,900,')).message).toContain('latitude is missing');
    expect((await aside('X,45,west,900,')).message).toContain('longitude "west" is not a number');
    expect((await aside('X,95,-94,900,')).message).toContain('"95" is not between -90 and 90');
    expect((await aside('X,0,0,900,')).message).toContain('both 0');
  });

  test('a station far outside the grid', async () => {
    const remark = await aside('Rome,41.9,12.5,900,');
    expect(remark.code).toBe('station-off-grid');
    expect(remark.message).toContain(
      'Row 5 of gauges.csv: the station (latitude 41.9, longitude 12.5) lies too far from every rain value',
    );
  });

  test('a row with more cells than headings', async () => {
    expect((await aside('X,45,-94,900,1991-2020,more')).code).toBe('too-many-cells');
  });

  test('remarks come in the order of the rows', async () => {
    const file = await read(`${three}Rome,41.9,12.5,900,\nX,45,-94,0,\nY,,-94,900,\n`);
    expect(file.setAside.map(({ row }) => row)).toEqual([5, 6, 7]);
  });

  test('rows read are accepted or set aside, whatever the file holds', async () => {
    const cell = fc.constantFrom('45', '-95', '1000', '', '-1', '0', 'x', '1e3', '200', '"a');
    const row = fc.array(cell, { minLength: 1, maxLength: 5 }).map((cells) => cells.join(','));
    await fc.assert(
      fc.asyncProperty(fc.array(row, { maxLength: 30 }), async (rows) => {
        const text = lines('latitude,longitude,normal_mm', '45,-95,1000', ...rows);
        const result = await read(text).catch((error: Error) => error.name);
        if (typeof result === 'string') return result === 'Refusal';
        return result.rowsRead === result.accepted + result.setAside.length;
      }),
      { seed: 6 },
    );
  });
});

describe('stations at one place', () => {
  test('with the same normal count as one, with a note', async () => {
    const file = await read(`${three}Again,45.00001,-95,1000,\n`);
    expect([file.rowsRead, file.accepted, file.stations.n]).toEqual([4, 4, 3]);
    expect(file.noted.map(({ message }) => message)).toEqual([
      'Row 5 of gauges.csv: this station stands where that of row 3 does, with the same normal: the two count as one.',
    ]);
  });

  test('with other normals take the mean of their logarithms, with a note each', async () => {
    const file = await read(`${three}New,45,-95,1210,\nOld,45,-95,1000,\n`);
    expect(file.stations.n).toBe(3);
    // (1000 · 1210 · 1000)^(1/3)
    expect(file.stations.mm[1]).toBeCloseTo(1.21e9 ** (1 / 3), 3.9);
    expect(file.noted.map(({ row, code }) => [row, code])).toEqual([
      [5, 'station-differs'],
      [6, 'station-repeat'],
    ]);
    expect(file.noted[0]!.message).toContain('(1210, not 1000)');
  });

  test('written a turn apart are one place', async () => {
    const file = await read(lines('lat,lon,normal_mm', '45,-95,900', '45,265,900', '42,-95,800'));
    expect([file.stations.n, file.noted.length]).toEqual([2, 1]);
  });

  test('either side of the date line are one place', async () => {
    const pacific = gridOf([Array(11).fill(900), Array(11).fill(900)], { west: 175 });
    const text = lines('lat,lon,normal_mm', '49.5,-180,900', '49.5,179.99999,900', '49.5,180,900');
    const file = await readStations(sourceOf('gauges.csv', text), pacific);
    expect([file.stations.n, file.noted.length]).toEqual([1, 2]);
  });

  test('ten metres apart are two', async () => {
    const file = await read(lines('lat,lon,normal_mm', '45,-95,900', '45.0002,-95,900'));
    expect(file.stations.n).toBe(2);
  });
});

describe('a file whose unit or columns are doubtful is refused in words', () => {
  test('inches under a heading of millimetres', async () => {
    expect(await refused(lines('lat,lon,normal_mm', '45,-95,41', '42,-97,38'))).toBe(
      'Read in mm, as the heading “normal_mm” says, all 2 normals of gauges.csv are under 100 mm a year, and the grid says otherwise: are these inches? If so, name the column normal_in.',
    );
  });

  test('millimetres under a heading of inches or centimetres', async () => {
    expect(await refused(lines('lat,lon,normal_in', '45,-95,1041', '42,-97,938'))).toContain(
      'are over 10000 mm a year, and the grid says otherwise: are these millimetres?',
    );
    expect(await refused(lines('lat,lon,normal_cm', '45,-95,1241', '42,-97,1138'))).toContain(
      'are these millimetres? If so, name the column normal_mm.',
    );
  });

  test('but a desert that the grid knows as one is read', async () => {
    const dry = gridOf([
      [20, 30],
      [25, 35],
    ]);
    const text = lines('lat,lon,normal_mm', '49.5,-99.5,28', '49.2,-99.8,22');
    expect((await readStations(sourceOf('dry.csv', text), dry)).stations.n).toBe(2);
  });

  test('no unit, no normals, no coordinates, two columns of normals', async () => {
    expect(await refused(lines('lat,lon,normal', '45,-95,900'))).toContain(
      'names a unit of rain (looked at: “normal”)',
    );
    expect(await refused(lines('lat,lon', '45,-95'))).toContain('no column for the annual normal');
    expect(await refused(lines('lat,rain_mm', '45,900'))).toContain('no column named longitude');
    expect(await refused(lines('lat,lon,normal_mm,normal_in', '45,-95,900,35'))).toContain(
      'more than one column that could be the annual normal: “normal_mm”, “normal_in”',
    );
  });

  test('no row of use, no rows, nothing', async () => {
    expect(await refused(lines('lat,lon,normal_mm', '45,-95,-9'))).toContain(
      'No row of gauges.csv can be used as a station. The first reason: Row 2 of gauges.csv:',
    );
    expect(await refused(lines('lat,lon,normal_mm'))).toContain('no rows below its headings');
    expect(await refused('')).toContain('gauges.csv is empty');
  });
});

test('a file read is a file fitted: its three stations are tried and the run says what came of it', async () => {
  const { stations } = await read(three);
  const fit = fitStations(stations);
  expect(fit.check.length).toBe(6);
  expect(fit.on || fit.why.length > 20).toBe(true);
});
