import { type Columns, numbers, texts } from '../columns.ts';
import type { Engine } from '../engine/port.ts';
import type { Population, SampleUnit } from '../sample/types.ts';
import { type RankQuery, tiers } from '../session-types.ts';
import type { Sifter } from '../sift/order.ts';
import unitSql from './unit.sql?raw';

/** What may be opened: the scored walls of the buildings that a filter lets through, or those buildings. */
export interface PopulationQuery {
  readonly query: RankQuery;
  readonly unit: SampleUnit;
}

/** Every scored wall, in order of building_id and wall_id. */
export const surveyWalls = (engine: Engine): Promise<Columns> => engine.query(unitSql);

/** Name of a wall that no other wall of the portfolio has: wall ids may repeat from building to building. */
export const unitId = (building: string, wall: string): string => `${building} / ${wall}`;

/** Rows of the walls table that a population is made of: all its walls, or of each building the one that sets its index. */
async function rowsIn(
  sifter: Sifter,
  walls: Columns,
  { query, unit }: PopulationQuery,
): Promise<number[]> {
  const passes = await sifter.mask(query);
  const b = numbers(walls, 'b');
  const sets = numbers(walls, 'sets_index');
  return Array.from({ length: walls.n }, (_, i) => i).filter(
    (i) => (!passes || passes[b[i]!] === 1) && (unit === 'wall' || sets[i] === 1),
  );
}

/** A population, and the row of the walls table behind each of its units. */
export interface Surveyed {
  readonly population: Population;
  readonly rows: readonly number[];
  readonly walls: Columns;
}

export async function surveyed(
  engine: Engine,
  sifter: Sifter,
  asked: PopulationQuery,
): Promise<Surveyed> {
  const walls = await surveyWalls(engine);
  const rows = await rowsIn(sifter, walls, asked);
  const number = (name: string) => Float64Array.from(rows, (i) => numbers(walls, name)[i]!);
  const text = (name: string) => rows.map((i) => texts(walls, name)[i]!);
  const building = text('building_id');
  const wall = text('wall_id');
  const tier = number(asked.unit === 'wall' ? 'tier' : 'building_tier');
  const population: Population = {
    unit: asked.unit,
    n: rows.length,
    id: asked.unit === 'wall' ? building.map((id, i) => unitId(id, wall[i]!)) : building,
    cluster: building,
    tier: Array.from(tier, (i) => tiers[i] ?? null),
    material: text('material'),
    installed: number('installed'),
    azimuthDeg: number('azimuth_deg'),
    heightM: number('height_m'),
    latitude: number('latitude'),
    longitude: number('longitude'),
    areaM2: number('area_m2'),
    wetting: number('wetting_l_m2'),
    index: number('index'),
  };
  return { population, rows, walls };
}
