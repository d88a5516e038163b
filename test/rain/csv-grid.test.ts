import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readRainCsv } from '../../analysis/rain/csv-grid.ts';
import { unitOf } from '../../analysis/rain/heading.ts';
import { sampleGrid } from '../../analysis/rain/sample.ts';
import { memorySource } from '../../analysis/read/memory-source.ts';
import { Refusal } from '../../analysis/read/outcome.ts';
import { fileOf } from './grids.ts';

const read = (text: string) => readRainCsv(fileOf(text));

/** The sentence with which a file is refused. */
async function refusal(text: string): Promise<string> {
  const error = await read(text).catch((e: unknown) => e);
  expect(error).toBeInstanceOf(Refusal);
  expect((error as Refusal).file).toBe('rain.csv');
  return (error as Refusal).message;
}

const small = `longitude,latitude,rain_mm
-100,40,100
-99,40,200
-100,39,300
-99,39,400
`;

describe('a rain grid of the user’s own', () => {
  test('one row a node makes a grid, rows from north to south', async () => {
    const { grid, ...rest } = await read(small);
    expect(grid).toMatchObject({
      width: 2,
      height: 2,
      west: -100,
      north: 40,
      stepX: 1,
      stepY: -1,
      wrapsLongitude: false,
    });
    expect([...grid.mm]).toEqual([100, 200, 300, 400]);
    expect(grid).toMatchObject({ source: 'rain.csv, column rain_mm', period: 'period not stated' });
    expect(rest).toEqual({
      rowsRead: 4,
      accepted: 4,
      setAside: [],
      noted: [],
      heading: 'rain_mm',
      unit: 'mm',
      assumed: [],
    });
  });

  test('the order of the rows and absent rows change nothing but the missing nodes', async () => {
    const node = fc.record({ c: fc.nat(5), r: fc.nat(4), mm: fc.integer({ min: 0, max: 5000 }) });
    const nodes = fc.uniqueArray(node, {
      selector: ({ c, r }) => `${c} ${r}`,
      minLength: 12,
      maxLength: 30,
    });
    const corners = [
      { c: 0, r: 0 },
      { c: 5, r: 4 },
      { c: 1, r: 1 },
    ];
    await fc.assert(
      fc.asyncProperty(nodes, async (some) => {
        const free = some.filter(({ c, r }) => !corners.some((k) => k.c === c && k.r === r));
        const all = [...free, ...corners.map((k) => ({ ...k, mm: 77 }))];
        const lines = all.map(
          ({ c, r, mm }) => `${(-71.3 + c * 0.1).toFixed(1)},${(44.9 - r * 0.1).toFixed(1)},${mm}`,
        );
        const { grid } = await read(`lon,lat,rain_mm\n${lines.join('\n')}\n`);
        const expected = new Float32Array(30).fill(Number.NaN);
        for (const { c, r, mm } of all) expected[6 * r + c] = mm;
        expect([...grid.mm]).toEqual([...expected]);
        expect(grid.stepX).toBeCloseTo(0.1, 9);
      }),
      { seed: 5, numRuns: 60 },
    );
  });

  test('blank cells and words for no data are missing nodes; other words too, and they are said', async () => {
    const { grid, noted, accepted } = await read(
      small.replace('200', '').replace('300', 'NA').replace('400', 'damp'),
    );
    expect([...grid.mm]).toEqual([100, Number.NaN, Number.NaN, Number.NaN]);
    expect(noted).toEqual([
      {
        file: 'rain.csv',
        row: 5,
        column: 'rain_mm',
        value: 'damp',
        code: 'grid-value',
        message: '“damp” is not a number: taken as no data.',
      },
    ]);
    expect(accepted).toBe(4);
  });

  test('a row without a place is set aside with its number, and read = accepted + set aside', async () => {
    const { setAside, rowsRead, accepted } = await read(`${small}\n,38,500\nwest,38,500\n`);
    expect(setAside.map(({ row, column, value }) => [row, column, value])).toEqual([
      [7, 'longitude', ''],
      [8, 'longitude', 'west'],
    ]);
    expect([rowsRead, accepted]).toEqual([6, 4]);
  });

  test('longitudes from 0 to 360 are read as those from −180 to 180', async () => {
    const east = small.replaceAll('-100,', '260,').replaceAll('-99,', '261,');
    expect((await read(east)).grid).toEqual((await read(small)).grid);
  });

  test('a region across the date line stays in one piece, in either way of writing longitudes', async () => {
    const rows = (xs: readonly number[]) =>
      xs.flatMap((x, i) => [`${x},10,${i}`, `${x},11,${i + 10}`]).join('\n');
    const a = await read(`lon,lat,rain_mm\n${rows([178, 179, -180, -179])}`);
    const b = await read(`lon,lat,rain_mm\n${rows([178, 179, 180, 181])}`);
    expect(a.grid).toMatchObject({ west: 178, width: 4, stepX: 1, wrapsLongitude: false });
    expect(b.grid).toEqual(a.grid);
  });

  test('a grid around the globe is joined at its ends', async () => {
    const rows = Array.from({ length: 36 }, (_, c) => `${10 * c},0,${c}\n${10 * c},10,${c}`).join(
      '\n',
    );
    const { grid } = await read(`lon,lat,rain_mm\n${rows}`);
    expect(grid).toMatchObject({ west: -180, width: 36, wrapsLongitude: true });
    const between = sampleGrid(grid, Float64Array.of(-5), Float64Array.of(5));
    expect(between.mm[0]).toBe(17.5); // half of column 350° (35) and of 0° (0)
  });

  test('the meridian of 180° may be given twice with the same values, not with others', async () => {
    const rows = Array.from(
      { length: 5 },
      (_, c) => `${-180 + 90 * c},0,${c % 4}\n${-180 + 90 * c},10,${c % 4}`,
    );
    expect((await read(`lon,lat,rain_mm\n${rows.join('\n')}`)).grid).toMatchObject({
      width: 4,
      wrapsLongitude: true,
    });
    rows[4] = '180,0,9\n180,10,9';
    expect(await refusal(`lon,lat,rain_mm\n${rows.join('\n')}`)).toContain(
      'Rows 2 and 10 of rain.csv are the same node',
    );
  });

  test('coordinates rounded to three decimals still make a regular grid', async () => {
    const rows = Array.from(
      { length: 200 },
      (_, k) => `${(-120 + k / 24).toFixed(3)},40,1\n${(-120 + k / 24).toFixed(3)},40.042,1`,
    );
    const { grid } = await read(`lon,lat,rain_mm\n${rows.join('\n')}`);
    expect(grid.width).toBe(200);
    expect(grid.stepX).toBeCloseTo(1 / 24, 5);
  });

  test('semicolons, decimal commas and UTF-16 are read', async () => {
    const text = small.replaceAll(',', ';').replace('100\n', '100,5\n');
    const bytes = Buffer.from(`\ufeff${text}`, 'utf16le');
    const source = memorySource('rain.csv', new Uint8Array(bytes));
    expect([...(await readRainCsv(source)).grid.mm]).toEqual([100.5, 200, 300, 400]);
  });
});

describe('what cannot be a rain grid is refused in words', () => {
  test('a node given twice is refused with both rows', async () => {
    expect(await refusal(`${small}-99,40,250\n`)).toBe(
      'Rows 3 and 6 of rain.csv are the same node (longitude -99, latitude 40). Keep one of them.',
    );
  });

  test('uneven spacing is refused with the row that shows it', async () => {
    const message = await refusal(`${small}-99.6,40,250\n-98,40,1\n-97,40,1\n-99.3,40,9\n`);
    expect(message).toMatch(
      /longitudes of rain.csv are not evenly spaced: row \d+ has -\d+(\.\d)?, which lies between/,
    );
  });

  test('scattered places are refused: they are no grid', async () => {
    const rows = Array.from(
      { length: 40 },
      (_, k) => `${-100 + ((k * 37) % 101) / 100},${40 + ((k * 53) % 97) / 100},500`,
    );
    expect(await refusal(`lon,lat,rain_mm\n${rows.join('\n')}`)).toContain('do not form a grid');
  });

  test('negative rain is refused with row and value', async () => {
    expect(await refusal(small.replace('300', '-9999'))).toBe(
      'Row 4 of rain.csv has -9999 under “rain_mm”. Rain is never negative. If that number means no data, leave the cell blank.',
    );
  });

  test('a file without any rain is refused', async () => {
    expect(await refusal('lon,lat,rain_mm\n1,1,\n1,2,NA\n2,1,\n2,2,\n')).toContain(
      'no rain in any row',
    );
    expect(await refusal('lon,lat,rain_mm\n')).toContain('no rain in any row');
  });

  test('degrees out of range are refused: the columns may be swapped', async () => {
    expect(await refusal('lon,lat,rain_mm\n40,-100,5\n')).toBe(
      'Row 2 of rain.csv has -100 under “latitude”. A latitude lies between -90 and 90 degrees: are the columns swapped?',
    );
    expect(await refusal('lon,lat,rain_mm\n400,40,5\n')).toContain('has 400 under “longitude”');
  });

  test('a single meridian or parallel is refused', async () => {
    expect(await refusal('lon,lat,rain_mm\n1,1,5\n1,2,5\n')).toContain('have the same longitude');
    expect(await refusal('lon,lat,rain_mm\n1,1,5\n2,1,5\n')).toContain('have the same latitude');
  });

  test('missing columns are named', async () => {
    expect(await refusal('lat,rain_mm\n1,1\n')).toBe(
      'rain.csv has no column named longitude. Its columns are “lat”, “rain_mm”.',
    );
    expect(await refusal('lon,lat\n1,1\n')).toContain('Add the rain, named rain_mm');
  });

  test('rain without a unit is refused: nobody guesses units', async () => {
    expect(await refusal('lon,lat,rain\n1,1,5\n')).toContain(
      '“rain” of rain.csv names no unit we know',
    );
    expect(await refusal('lon,lat,rain (fathoms)\n1,1,5\n')).toContain(
      'Known units: mm, cm, in, m, mm/day, mm/month, kg m-2 s-1',
    );
  });

  test('two columns that could be the rain are refused, unless one is rain_mm', async () => {
    expect(await refusal('lon,lat,rain 2015 (mm),rain 2016 (mm)\n1,1,5,6\n')).toContain(
      'more than one column',
    );
    const text = small.replace('rain_mm', 'rain_mm,snow_mm').replace(/00$/gm, '00,3');
    expect([...(await read(text)).grid.mm]).toEqual([100, 200, 300, 400]);
  });

  test('a file over 300 MB is refused before it is read', async () => {
    const source = { ...fileOf(small), size: 301e6 };
    await expect(readRainCsv(source)).rejects.toThrow('larger than 300 MB');
  });
});

describe('units', () => {
  // Inch: 25.4 mm exactly, NIST SP 811 appendix B. Year: 365.2425 days, Gregorian calendar. 1 kg/m² of water is 1 mm.
  test.each([
    ['rain_mm', 'mm', 1],
    ['Precipitation (in)', 'in', 25.4],
    ['annual rain [cm]', 'cm', 10],
    ['tp_m', 'm', 1000],
    ['ppt mm/month', 'mm/month', 12],
    ['Rainfall, mm per day', 'mm/day', 365.2425],
    ['pr (kg m-2 s-1)', 'kg m-2 s-1', 31_556_952],
    ['pr [kg m⁻² s⁻¹]', 'kg m-2 s-1', 31_556_952],
    ['Rain in inches (1991-2020)', 'in', 25.4],
    ['PRECIP_MM_YR', 'mm', 1],
  ])('%s is read as %s', (heading, unit, mmPerYear) => {
    expect(unitOf(heading)).toEqual({ unit, mmPerYear });
  });

  test.each(['rain', 'rain (fathoms)', 'kg', 'raindays', 'min'])(
    '%s names no unit of rain',
    (heading) => {
      expect(unitOf(heading)).toBeUndefined();
    },
  );

  test('every unit comes out in mm a year', async () => {
    const inches = await read(small.replace('rain_mm', 'Rain (in)'));
    expect(inches.grid.mm[1]).toBe(Math.fround(200 * 25.4));
    expect(inches.unit).toBe('in');
  });
});
