import { describe, expect, test } from 'vitest';
import {
  bilinear,
  filledBetween,
  grownByOne,
  type RainNodes,
} from '../../dashboard/map/rain/grid.ts';
import { nodesOver, windowOf, windowsOf } from '../../dashboard/map/rain/window.ts';
import type { TileFeature } from '../../dashboard/map/tiles/encode.ts';
import { rainTile } from '../../dashboard/map/tiles/rain-tile.ts';
import { fileText } from './support.ts';

interface PackedGrid {
  readonly width: number;
  readonly height: number;
  readonly values: readonly number[];
}

/** Mean yearly precipitation on a grid of one degree, mm, as vega-datasets 3.2.1 ships it. */
function worldRain(): RainNodes {
  const { width, height, values } = JSON.parse(
    fileText('node_modules/vega-datasets/data/annual-precip.json'),
  ) as PackedGrid;
  return {
    width,
    height,
    west: -179.5,
    north: 86.5,
    stepX: 1,
    stepY: -1,
    mm: Float32Array.from(values),
  };
}

const small: RainNodes = {
  width: 3,
  height: 3,
  west: 10,
  north: 50,
  stepX: 1,
  stepY: -1,
  mm: Float32Array.of(0, 100, 200, 100, 200, 300, Number.NaN, Number.NaN, Number.NaN),
};

test('filling in keeps the nodes and puts the bilinear value between them', () => {
  const filled = filledBetween(small, 4);
  expect([filled.width, filled.height, filled.stepX, filled.stepY]).toEqual([9, 9, 0.25, -0.25]);
  expect(filled.mm[0]).toBe(0);
  expect(filled.mm[4]).toBe(100);
  expect(filled.mm[2]).toBe(50);
  expect(filled.mm[2 * 9 + 2]).toBe(bilinear(small, 0.5, 0.5));
  expect(bilinear(small, 0.5, 0.5)).toBe(100);
});

test('a node without weight does not hide the others: rain on the last row with data is known', () => {
  expect(bilinear(small, 0.5, 1)).toBe(150);
  expect(bilinear(small, 0.5, 1.5)).toBeNaN();
});

test('shading grows by one node over missing data, and no farther', () => {
  const row: RainNodes = {
    ...small,
    width: 4,
    height: 1,
    mm: Float32Array.of(100, Number.NaN, Number.NaN, 300),
  };
  expect([...(grownByOne(row).mm as Float32Array)]).toEqual([100, 100, 300, 300]);
  const wide: RainNodes = { ...row, width: 3, mm: Float32Array.of(100, Number.NaN, Number.NaN) };
  expect([...(grownByOne(wide).mm as Float32Array)]).toEqual([100, 100, Number.NaN]);
});

test('a window keeps the place and value of each node it takes', () => {
  const world = worldRain();
  const cut = windowOf(world, { west: -130, east: -120, south: 40, north: 50 }, 2, 1);
  for (let i = 0; i < cut.mm.length; i++) {
    const longitude = cut.west + (i % cut.width) * cut.stepX;
    const latitude = cut.north + Math.floor(i / cut.width) * cut.stepY;
    const at = (86.5 - latitude) * 360 + (longitude + 179.5);
    expect(cut.mm[i]).toBe(world.mm[at]);
  }
});

test('a sheet that counts longitude from 0 to 360 is drawn in the west too', () => {
  const east: RainNodes = {
    width: 360,
    height: 3,
    west: 0.5,
    north: 41,
    stepX: 1,
    stepY: -1,
    mm: new Float32Array(1080).fill(700),
  };
  const [nodes, ...rest] = nodesOver(east, { z: 6, x: 14, y: 24 });
  expect(rest).toEqual([]);
  expect(nodes!.west).toBeLessThan(-101);
  expect(nodes!.west).toBeGreaterThan(-110);
});

describe('a sheet around the globe', () => {
  const column = (i: number) => i % 360;
  const globe: RainNodes = {
    width: 360,
    height: 3,
    west: -179.5,
    north: 41,
    stepX: 1,
    stepY: -1,
    mm: Float32Array.from({ length: 1080 }, (_, i) => column(i)),
  };

  test.each([
    ['east of 180°', { west: 175, east: 185 }],
    ['west of −180°', { west: -185, east: -175 }],
    ['a whole turn on', { west: 535, east: 545 }],
  ])('goes on %s in one window, each node at its place', (_, sides) => {
    const [nodes, ...rest] = windowsOf(globe, { ...sides, south: 38, north: 42 }, 1, 2);
    expect(rest).toEqual([]);
    expect(nodes!.west).toBeLessThan(sides.west - 1);
    for (let i = 0; i < nodes!.width; i++) {
      const longitude = nodes!.west + i;
      expect(nodes!.mm[i]).toBe((((longitude + 179.5) % 360) + 360) % 360);
    }
  });

  test('is not drawn twice where the whole of it is in view', () => {
    const all = windowsOf(globe, { west: -180, east: 180, south: 38, north: 42 }, 1, 3);
    const inView = all.filter(({ west, width }) => west - 0.5 < 180 && west + width - 0.5 > -180);
    expect(inView).toHaveLength(1);
    expect(inView[0]!.width).toBe(360);
  });

  test('rain beyond 180° lies beyond the edge of the world, not along it', () => {
    const tile = rainTile(globe, 'metric', { z: 5, x: 31, y: 12 }, []);
    const ends = tile.flatMap(({ geometry }) => geometry.flat().map(({ x }) => x));
    expect(Math.max(...ends)).toBeGreaterThan(4096);
  });
});

test('a sheet draws nothing where it does not reach', () => {
  expect(nodesOver({ ...small }, { z: 6, x: 14, y: 24 })).toEqual([]);
});

describe('on the grid of the world', () => {
  const world = worldRain();
  const lines = (tile: TileFeature[]) =>
    tile.filter(({ type, properties }) => type === 2 && properties.main === true);

  test('lines meet across the edge of two tiles', () => {
    const at = (x: number) => lines(rainTile(world, 'american', { z: 4, x, y: 6 }, []));
    /** Rows, in tile units, at which the 20-inch line crosses a column of the tile. */
    const crossings = (features: TileFeature[], column: number) =>
      features
        .flatMap(({ geometry }) =>
          geometry.flatMap((line) =>
            line.slice(1).flatMap((b, i) => {
              const a = line[i]!;
              if (a.x < column === b.x < column) return [];
              return [a.y + ((b.y - a.y) * (column - a.x)) / (b.x - a.x)];
            }),
          ),
        )
        .filter((y) => y >= 0 && y < 4096)
        .sort((a, b) => a - b);
    const [left, right] = [crossings(at(2), 4096), crossings(at(3), 0)];
    expect(left.length).toBeGreaterThan(0);
    expect(right).toHaveLength(left.length);
    const gaps = left.map((y, i) => Math.abs(y - right[i]!));
    expect(Math.max(...gaps)).toBeLessThan(8);
  });

  test('across the Texas panhandle the 20-inch line runs near the 100th meridian (Powell, Report on the Lands of the Arid Region, 1878)', () => {
    const [nodes] = nodesOver(world, { z: 4, x: 3, y: 6 });
    const rain = (longitude: number, latitude: number) =>
      bilinear(
        nodes!,
        (longitude - nodes!.west) / nodes!.stepX,
        (latitude - nodes!.north) / nodes!.stepY,
      );
    const eastward = Array.from({ length: 49 }, (_, i) => -103 + i / 8);
    for (const latitude of [33, 34, 35, 36]) {
      const wetFrom = eastward.find((longitude) => rain(longitude, latitude) >= 508);
      expect(Math.abs(wetFrom! + 100)).toBeLessThan(2);
    }
  });

  test('figures stand on their line, upright, and never on water', () => {
    const water: TileFeature = {
      type: 3,
      properties: { kind: 'ocean' },
      geometry: [
        [
          { x: -96, y: -96 },
          { x: 2048, y: -96 },
          { x: 2048, y: 4200 },
          { x: -96, y: 4200 },
          { x: -96, y: -96 },
        ],
      ],
    };
    const figures = (waters: TileFeature[]) =>
      rainTile(world, 'metric', { z: 4, x: 3, y: 6 }, waters).filter(
        ({ properties }) => properties.kind === 'figure',
      );
    expect(figures([]).filter(({ geometry }) => geometry[0]![0]!.x < 2048).length).toBeGreaterThan(
      3,
    );
    expect(figures([water]).filter(({ geometry }) => geometry[0]![0]!.x < 2048)).toEqual([]);
    expect(figures([water]).length).toBeGreaterThan(3);
    for (const { properties } of figures([]))
      expect(Math.abs(Number(properties.angle))).toBeLessThanOrEqual(90);
  });
});
