import { type Column, type Columns, rowObject } from '../../analysis/columns.ts';
import { openNative } from '../../analysis/engine/native.ts';
import type { Engine } from '../../analysis/engine/port.ts';
import { loadReference, score } from '../../analysis/pipeline.ts';
import { defaultSettings, type Settings } from '../../analysis/settings.ts';

type Cell = number | string | null | undefined;
export type Facts = Readonly<Record<string, Cell>>;

const numberColumns = new Set(
  `file row b latitude longitude year_built reclad_year storeys height_m moisture_index hdd18_c mean_temp_c insured_value
  wall_area_m2 building_count overhang_mm distance_to_coast_km obstruction_m rain_mm rain_low_mm rain_high_mm
  p_rain_over_threshold rain_ln_sd rain_1 rain_2 rain_3 rain_4 rain_5 azimuth_deg area_m2 installed gap_mm drainage_eff_pct`.split(
    /\s+/,
  ),
);
const buildingColumns =
  `row b building_id name address city region postal_code latitude longitude year_built
  reclad_year storeys height_m use construction_type terrain roof climate_zone moisture_index hdd18_c mean_temp_c
  insured_value currency wall_area_m2 building_count leak_history overhang_mm distance_to_coast_km obstruction_m
  place_source country region_code marine_possible rain_ln_sd rain_1 rain_2 rain_3 rain_4 rain_5 rain_mm rain_low_mm rain_high_mm p_rain_over_threshold rain_flag`.split(
    /\s+/,
  );
const wallColumns =
  `file row b wall_id azimuth_deg material area_m2 installed drainage gap_mm drainage_eff_pct sheathing
  runoff source recorded_on`.split(/\s+/);

function columns(names: readonly string[], rows: readonly Facts[]): Columns {
  const make = (name: string): Column =>
    numberColumns.has(name)
      ? Float64Array.from(rows, (row) => (typeof row[name] === 'number' ? row[name] : Number.NaN))
      : rows.map((row) => (row[name] as string | null | undefined) ?? null);
  return { n: rows.length, cols: Object.fromEntries(names.map((name) => [name, make(name)])) };
}

/** A building on record with its walls, given by the facts that matter; all else is no record. Rain is exact. */
export interface Case {
  readonly building: Facts;
  readonly walls: readonly Facts[];
}

let shared: Engine | undefined;

/** What one rule answers for the first wall of each case: `asks`, `does not ask`, `cannot tell: <fact>`. */
export async function ruleAnswers(cases: readonly Case[], rule: string) {
  await run(cases);
  const found = await rows(
    shared!,
    `SELECT CASE WHEN a.asks THEN 'asks' WHEN NOT a.asks THEN 'does not ask' ELSE 'cannot tell: ' || a.missing END AS answer
     FROM need_wall w JOIN rule_answer a USING (need_case)
     WHERE a.rule_id = '${rule}' AND w.wall IN (SELECT min(wall) FROM wall GROUP BY b) ORDER BY w.wall`,
  );
  return found.map(({ answer }) => answer);
}

/** Runs the method over hand-made buildings and returns the ranking rows (in order of b) and the wall rows. */
export async function run(cases: readonly Case[], settings: Settings = defaultSettings) {
  if (!shared) {
    shared = await openNative();
    await loadReference(shared);
  }
  const engine = shared;
  const buildings = cases.map(({ building }, b) => ({
    b,
    row: b + 2,
    building_id: `B${String(b).padStart(4, '0')}`,
    country: 'US',
    marine_possible: 'no',
    rain_ln_sd: 0,
    ...Object.fromEntries([1, 2, 3, 4, 5].map((i) => [`rain_${i}`, building.rain_mm])),
    rain_low_mm: building.rain_mm,
    rain_high_mm: building.rain_mm,
    p_rain_over_threshold:
      typeof building.rain_mm === 'number'
        ? Number(building.rain_mm > settings.constants.rain_threshold_mm!)
        : undefined,
    ...building,
  }));
  const walls = cases.flatMap(({ walls: list }, b) =>
    list.map((wall, i) => ({ b, file: 0, row: 2 + i, wall_id: `W${i}`, ...wall })),
  );
  await engine.load('rain_said', { n: 1, cols: { source: ['exact'], period: ['none'] } });
  await engine.load('building', columns(buildingColumns, buildings));
  await engine.load('wall_record', columns(wallColumns, walls));
  await score(engine, settings);
  return {
    buildings: await rows(engine, 'SELECT * FROM ranking ORDER BY b'),
    walls: await rows(
      engine,
      `SELECT * FROM wall JOIN need USING (wall) JOIN drainage_state USING (wall)
       JOIN (SELECT * EXCLUDE (b) FROM wall_index) USING (wall) ORDER BY wall`,
    ),
  };
}

async function rows(engine: Engine, text: string) {
  const table = await engine.query(text);
  return Array.from({ length: table.n }, (_, i) => rowObject(table, i));
}
