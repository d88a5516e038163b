import type { MultiLineString, MultiPolygon, Position } from 'geojson';
import { expect, test } from 'vitest';
import { filledBetween, type RainNodes } from '../../dashboard/map/rain/grid.ts';
import { rainFeatures, rounded } from '../../dashboard/map/rain/isohyets.ts';

/** Nodes every degree from 100° west and 50° north, 21 by 21. */
function nodes(mm: (longitude: number, latitude: number) => number): RainNodes {
  const [width, height, west, north] = [21, 21, -100, 50];
  const values = Float32Array.from({ length: width * height }, (_, i) =>
    mm(west + (i % width), north - Math.floor(i / width)),
  );
  return { width, height, west, north, stepX: 1, stepY: -1, mm: values };
}

function lineAt(grid: RainNodes, label: string): Position[][] {
  const found = rainFeatures(grid, 'american').find(
    ({ properties }) => properties?.label === label,
  );
  return (found?.geometry as MultiLineString | undefined)?.coordinates ?? [];
}

test('a line of equal rain lies where the nodes say, not half a node off', () => {
  // 508 mm at 90° west exactly, 100 mm a degree.
  const lines = lineAt(
    nodes((longitude) => 508 + (longitude + 90) * 100),
    '20 in',
  );
  expect(lines).toHaveLength(1);
  for (const [longitude] of lines[0]!) expect(longitude).toBeCloseTo(-90, 6);
  const latitudes = lines[0]!.map((point) => point[1]!);
  expect(Math.max(...latitudes)).toBeGreaterThan(49.4);
  expect(Math.min(...latitudes)).toBeLessThan(30.6);
});

test('a round hill of rain has a round line, within a tenth of a node', () => {
  const hill = nodes(
    (longitude, latitude) => 1000 - 82 * Math.hypot(longitude + 90, latitude - 40),
  );
  const [line] = lineAt(hill, '20 in');
  expect(line![0]).toEqual(line!.at(-1));
  for (const [longitude, latitude] of line!) {
    expect(Math.abs(Math.hypot(longitude! + 90, latitude! - 40) - 6)).toBeLessThan(0.1);
  }
});

test('no line is drawn along the edge of the sheet, only across it', () => {
  expect(
    lineAt(
      nodes(() => 900),
      '20 in',
    ),
  ).toEqual([]);
});

test.each([
  ['west', (longitude: number) => longitude < -90],
  ['east', (longitude: number) => longitude > -90],
  ['north', (_: number, latitude: number) => latitude > 40],
  ['south', (_: number, latitude: number) => latitude < 40],
])(
  'no line is drawn along the edge of data that lie in the %s: wet nodes beside none make no isohyet',
  (_, has) => {
    const half = nodes((longitude, latitude) => (has(longitude, latitude) ? 900 : Number.NaN));
    expect(lineAt(half, '20 in')).toEqual([]);
    expect(lineAt(filledBetween(half, 4), '20 in')).toEqual([]);
  },
);

test('a line ends where the data end', () => {
  const cut = nodes((longitude, latitude) =>
    latitude < 40 ? Number.NaN : 508 + (longitude + 90) * 100,
  );
  const lines = lineAt(cut, '20 in');
  expect(lines).toHaveLength(1);
  expect(Math.min(...lines[0]!.map((point) => point[1]!))).toBeGreaterThanOrEqual(39.9);
});

test('bands lie one within the other, driest first, and none covers what has no data', () => {
  const half = nodes((longitude) => (longitude < -90 ? 600 : Number.NaN));
  const bands = rainFeatures(half, 'american').filter(
    ({ properties }) => properties?.kind === 'band',
  );
  const shades = bands.map(({ properties }) => Number(properties?.shade));
  expect(shades).toEqual([...shades].sort((a, b) => a - b));
  expect(bands).toHaveLength(5);
  for (const { geometry } of bands) {
    const points = (geometry as MultiPolygon).coordinates.flat(2);
    expect(Math.max(...points.map((point) => point[0]!))).toBeLessThan(-90);
  }
});

test('rounding corners keeps ends and closed lines, and moves a corner by less than a fifth of its sides', () => {
  const corner: Position[] = [
    [0, 0],
    [1, 0],
    [1, 1],
  ];
  const soft = rounded(corner, 2);
  expect([soft[0], soft.at(-1)]).toEqual([
    [0, 0],
    [1, 1],
  ]);
  const nearest = Math.min(...soft.map(([x, y]) => Math.hypot(x! - 1, y!)));
  expect(nearest).toBeLessThan(0.2 * Math.SQRT2);
  const square = rounded(
    [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
      [0, 0],
    ],
    2,
  );
  expect(square[0]).toEqual(square.at(-1));
});
