import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { numbers, texts } from '../../analysis/columns.ts';
import { postalCentroids } from '../../analysis/place/postal.ts';
import { readBuildings } from '../../analysis/read/buildings.ts';
import { memorySource } from '../../analysis/read/memory-source.ts';
import type { ReadTable } from '../../analysis/read/outcome.ts';
import { readWalls } from '../../analysis/read/walls.ts';
import { generateDemo } from '../../data/demo/generate.ts';
import { buildPostal } from '../../data/postal/build.ts';

type Row = Readonly<Record<string, string>>;

const rowsOf = (csv: string) =>
  Papa.parse(csv, { header: true, skipEmptyLines: true }).data as Row[];

const demo = generateDemo({});
const buildings = rowsOf(demo.buildingsCsv);
const walls = rowsOf(demo.wallsCsv);

async function readDemo(): Promise<{ buildings: ReadTable; walls: ReadTable }> {
  const postal = postalCentroids(buildPostal().buffer);
  const list = await readBuildings(memorySource('buildings.csv', demo.buildingsCsv), {
    asOf: 2026,
    postal,
  });
  const buildingIds = new Set(texts(list.table, 'building_id') as string[]);
  return {
    buildings: list,
    walls: await readWalls(memorySource('walls.csv', demo.wallsCsv), { asOf: 2026, buildingIds }),
  };
}
const read = await readDemo();

const share = (list: readonly boolean[]): number => list.filter(Boolean).length / list.length;
const codes = (table: ReadTable): Record<string, number> => {
  const counts: Record<string, number> = {};
  for (const { code } of table.setAside) counts[code] = (counts[code] ?? 0) + 1;
  return counts;
};

describe('one seed, one scenario', () => {
  test('the same seed gives the same bytes', () => {
    expect(generateDemo({ buildings: 400, seed: 2026 })).toEqual(demo);
  });

  test('another seed gives another list', () => {
    const other = generateDemo({ seed: 2027 });
    expect(other.buildingsCsv).not.toBe(demo.buildingsCsv);
    expect(other.wallsCsv).not.toBe(demo.wallsCsv);
  });

  test('it says that it is invented, and whose positions it borrows', () => {
    expect(demo.about).toMatch(/^Invented scenario: /);
    expect(demo.about).toContain('GeoNames, CC-BY-4.0');
  });
});

describe('what is in it', () => {
  test.each([1, 50, 400, 3000])('%i buildings are %i rows', (n) => {
    expect(rowsOf(generateDemo({ buildings: n }).buildingsCsv).length).toBe(n);
  });

  test('there are about four wall records a building', () => {
    const large = generateDemo({ buildings: 3000, seed: 1 });
    expect(walls.length / buildings.length).toBeCloseTo(4, 0);
    expect(rowsOf(large.wallsCsv).length / 3000).toBeCloseTo(4, 0);
  });

  test('every town of the scenario has buildings, on both sides of 20 in a year and in both countries', () => {
    const cities = new Set(buildings.map((row) => row.city));
    expect(cities.size).toBeGreaterThanOrEqual(25);
    for (const city of ['Seattle', 'Vancouver', 'Phoenix', 'Halifax', 'San Juan'])
      expect(cities).toContain(city);
  });

  test('wall areas sum roughly to the building’s, sometimes they fall short', () => {
    const recorded = new Map<string, number>();
    const older = /^(drawing|as built|assumed)$/;
    const seen = new Set<string>();
    for (const wall of walls.toReversed()) {
      const key = `${wall.building_id} ${wall.wall_id}`;
      if (wall.wall_id && seen.has(key) && older.test(wall.source!)) continue;
      seen.add(key);
      recorded.set(
        wall.building_id!,
        (recorded.get(wall.building_id!) ?? 0) + Number(wall.area_m2),
      );
    }
    const ratios = buildings
      .filter((row) => Number(row.wall_area_m2) > 0 && recorded.has(row.building_id!))
      .map((row) => recorded.get(row.building_id!)! / Number(row.wall_area_m2));
    expect(share(ratios.map((ratio) => ratio > 0.95 && ratio < 1.05))).toBeGreaterThan(0.4);
    expect(share(ratios.map((ratio) => ratio < 0.95))).toBeGreaterThan(0.1);
  });

  test('newer walls drain better than older ones, and reported leaks are few', () => {
    const rows = texts(read.walls.table, 'drainage');
    const installed = numbers(read.walls.table, 'installed');
    const drained = (from: number, to: number) => {
      const era = rows.filter(
        (drainage, i) => drainage !== null && installed[i]! >= from && installed[i]! < to,
      );
      return share(
        era.map((drainage) =>
          ['furred_cavity', 'drainage_mat', 'textured_wrap'].includes(drainage!),
        ),
      );
    };
    expect(drained(2006, 2027)).toBeGreaterThan(drained(1960, 2006) + 0.2);
    const leaks = texts(read.buildings.table, 'leak_history').filter(
      (leak) => leak === 'reported',
    ).length;
    expect(leaks / read.buildings.table.n).toBeGreaterThan(0.005);
    expect(leaks / read.buildings.table.n).toBeLessThan(0.08);
  });
});

describe('the dirt of real lists', () => {
  test('15 to 30 % of the assembly facts are blank', () => {
    for (const column of ['drainage', 'sheathing', 'installed'] as const) {
      const layered = walls.filter((row) => /stucco|plaster|stone|eifs|coat/i.test(row.material!));
      const blank = share(layered.map((row) => row[column] === ''));
      expect(blank, column).toBeGreaterThan(0.13);
      expect(blank, column).toBeLessThan(0.33);
    }
  });

  test('one material is spelt in many ways, and 95 % of the words and more are understood', () => {
    const stuccos = new Set(
      walls.map((row) => row.material!).filter((m) => /stucco|plaster|hard coat/i.test(m)),
    );
    expect(stuccos.size).toBeGreaterThan(5);
    const unread = read.walls.noted.filter((remark) => remark.code === 'unknown-word').length;
    const written = walls
      .flatMap((row) => [row.material, row.drainage, row.sheathing])
      .filter(Boolean).length;
    expect(unread).toBeGreaterThan(0);
    expect(unread / written).toBeLessThan(0.05);
  });

  test('rows that cannot stand are there, each with its reason', () => {
    expect(codes(read.buildings)).toMatchObject({
      'repeat-id': 3,
      swapped: 2,
      'zero-coordinates': 1,
    });
    expect(codes(read.buildings)).toHaveProperty('minus-missing', 1);
    expect(codes(read.buildings)).toHaveProperty('after-as-of', 1);
    expect(codes(read.buildings)).toHaveProperty('no-place');
    expect(read.buildings.setAside.length / 400).toBeLessThan(0.05);
    expect(codes(read.walls).orphan).toBeGreaterThanOrEqual(5);
  });

  test('words stand in number columns and some buildings are placed by postal code only', () => {
    const noted = read.buildings.noted
      .filter(({ code }) => code !== 'unknown-word')
      .map(({ column }) => column);
    expect(new Set(noted)).toEqual(new Set(['storeys', 'wall_area_m2', 'year_built']));
    const placed = texts(read.buildings.table, 'place_source').filter(
      (source) => source !== 'coordinates',
    );
    expect(placed.length).toBeGreaterThanOrEqual(5);
  });

  test('directions are degrees and points of the compass, some walls were recorded twice', () => {
    const directions = walls.map((row) => row.azimuth_deg!).filter(Boolean);
    expect(share(directions.map((text) => /^[NESW]+$/.test(text)))).toBeGreaterThan(0.15);
    expect(share(directions.map((text) => /^\d+$/.test(text)))).toBeGreaterThan(0.6);
    const keys = walls
      .filter((row) => row.wall_id)
      .map((row) => `${row.building_id} ${row.wall_id}`);
    expect(keys.length - new Set(keys).size).toBeGreaterThan(20);
  });

  test('the same mix at any size: each mistake keeps its share', async () => {
    const large = generateDemo({ buildings: 4000, seed: 5 });
    const list = await readBuildings(memorySource('buildings.csv', large.buildingsCsv), {
      asOf: 2026,
      postal: postalCentroids(buildPostal().buffer),
    });
    expect(codes(list)).toMatchObject({
      'repeat-id': 30,
      swapped: 20,
      'minus-missing': 10,
      'zero-coordinates': 10,
    });
  });
});
