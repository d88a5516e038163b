import { polygonArea } from 'd3';
import earcut, { deviation, flatten } from 'earcut';
import { describe, expect, test } from 'vitest';
import { places } from '../../dashboard/map/places.ts';
import { encodeFeatures, extent, type TileFeature } from '../../dashboard/map/tiles/encode.ts';
import { insideOf } from '../../dashboard/map/tiles/inside.ts';
import { landShapes } from '../../dashboard/map/tiles/land.ts';
import { LandTiles } from '../../dashboard/map/tiles/land-tile.ts';
import { landSources, readTile, tileOfPlace } from './support.ts';

const land = new LandTiles(landShapes(landSources()));

/** Whether the map draws water at a place, at a zoom. */
function isWater(longitude: number, latitude: number, z: number): boolean {
  const tile = tileOfPlace(longitude, latitude, z);
  const n = 2 ** z;
  const sine = Math.sin((latitude * Math.PI) / 180);
  const point = {
    x: (((longitude + 180) / 360) * n - tile.x) * extent,
    y: ((0.5 - Math.atanh(sine) / (2 * Math.PI)) * n - tile.y) * extent,
  };
  return insideOf(land.waters(tile))(point);
}

describe.each([1, 3, 5, 8])('at zoom %i', (z) => {
  test.each([
    ['the Atlantic', -40, 35],
    ['the Pacific on both sides of 180°', 179.9, 0],
    ['the Pacific on both sides of 180°', -179.9, 0],
    ['the Gulf of Mexico', -90, 25],
    ['Hudson Bay', -85, 59],
    ['the Southern Ocean', 0, -60],
    ['Lake Superior', -87.5, 47.7],
    ['Lake Michigan', -87, 43.5],
  ])('%s is water', (_, longitude, latitude) => {
    expect(isWater(longitude, latitude, z)).toBe(true);
  });

  test.each([
    ['Kansas', -98, 38.5],
    ['Siberia', 100, 62],
    ['Chukotka, across 180°', -175, 66.6],
    ['Antarctica', 60, -78],
    ['the Sahara', 10, 24],
    ['Greenland', -40, 72],
  ])('%s is land', (_, longitude, latitude) => {
    expect(isWater(longitude, latitude, z)).toBe(false);
  });
});

test('names stand on land, or within a tenth of a degree of it', () => {
  const around = [0, -0.1, 0.1].flatMap((dx) => [0, -0.1, 0.1].map((dy) => [dx, dy] as const));
  const wet = places.filter(({ longitude, latitude }) =>
    around.every(([dx, dy]) => isWater(longitude + dx, latitude + dy, 8)),
  );
  expect(wet.map(({ name }) => name)).toEqual([]);
});

test('areas cut at the edge of a tile can be filled: triangles cover what the rings enclose', () => {
  const tiles = [0, 1, 2, 3, 4, 5].flatMap((z) => {
    const { x, y } = tileOfPlace(-88, 44, z);
    return [
      { z, x, y },
      { z, x: Math.max(0, x - 1), y },
    ];
  });
  for (const tile of tiles) {
    for (const { geometry } of land.waters(tile)) {
      const rings = geometry.map((ring) => ring.slice(0, -1).map(({ x, y }) => [x, y]));
      const { vertices, holes, dimensions } = flatten(rings);
      const error = deviation(vertices, holes, dimensions, earcut(vertices, holes, dimensions));
      const enclosed = rings.map((ring) => Math.abs(polygonArea(ring as [number, number][])));
      expect(error * enclosed[0]!).toBeLessThan(0.0005 * extent ** 2);
    }
  }
});

test('lines and areas reach the reader with their kind, in whole units close to the tile', () => {
  const tile = tileOfPlace(-70, 46, 3);
  const features: TileFeature[] = land.tile(tile);
  const read = readTile(encodeFeatures(features));
  expect(read).toHaveLength(features.length);
  expect(new Set(read.map(({ properties }) => properties.kind))).toEqual(
    new Set(['ocean', 'lake', 'coast', 'country', 'state', 'province']),
  );
  read.forEach((feature, i) => {
    expect(feature.type).toBe(features[i]!.type);
    for (const { x, y } of feature.loadGeometry().flat()) {
      expect(Math.abs(x - 2048)).toBeLessThanOrEqual(2048 + 128);
      expect(Math.abs(y - 2048)).toBeLessThanOrEqual(2048 + 128);
    }
  });
});

test('the coast has no seam where the world is cut: no line follows 180° or the edge of the map', () => {
  const { y } = tileOfPlace(0, 68, 4);
  const coast = land
    .tile({ z: 4, x: 15, y })
    .filter(({ properties }) => properties.kind === 'coast');
  expect(coast.length).toBeGreaterThan(0);
  for (const line of coast.flatMap(({ geometry }) => geometry)) {
    line.slice(1).forEach((b, i) => {
      const a = line[i]!;
      const alongSeam = Math.abs(a.x - extent) < 2 && Math.abs(b.x - extent) < 2;
      expect(alongSeam && Math.abs(a.y - b.y) > 200).toBe(false);
    });
  }
});

test('water reaches over the edges of the world, so that no gap shows where it is drawn again beside itself', () => {
  const reach = (x: number) =>
    land.waters({ z: 3, x, y: 3 }).flatMap(({ geometry }) => geometry.flat().map((at) => at.x));
  expect(Math.max(...reach(7))).toBeGreaterThan(extent + 8);
  expect(Math.min(...reach(0))).toBeLessThan(-8);
});
