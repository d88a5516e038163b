import type { Constants } from '../constants.ts';
import type { Engine } from '../engine/port.ts';
import { type ReferenceRow, referenceColumns } from '../reference.ts';
import { priorIn, type Settings } from '../settings.ts';
import type { DrivingRain } from '../weather/record.ts';

/** What is known of the wind while it rains. */
export interface WindInRain {
  /** Name of the weather record; null where there is none. */
  readonly record: string | null;
  /** U in m/s; null: over its prior. */
  readonly wind: number | null;
  /** κ of walls facing 0° … 359°, or the one value that stands for every direction. */
  readonly kappa: Float64Array;
}

/** Without a record κ is 1/π for every wall, and U is drawn over its prior. */
export const noRecord = (constants: Constants): WindInRain => ({
  record: null,
  wind: null,
  kappa: Float64Array.of(constants.kappa_without_record!),
});

export const ofRecord = ({ file, windInRain, kappaByDegree }: DrivingRain): WindInRain => ({
  record: file,
  wind: windInRain,
  kappa: kappaByDegree,
});

/** Which of the tables of `loadWind` differ once these constants or priors have changed. */
export const windTables = ({ record }: WindInRain, changed: readonly string[]): string[] => {
  const hangsOn =
    record === null
      ? { wind: 'prior_wind', facing: 'kappa_without_record' }
      : { facing: 'prior_orientation' };
  return Object.entries(hangsOn).flatMap(([table, name]) =>
    changed.includes(name) ? [table] : [],
  );
};

/**
 * Tables `wind` (wind_m_s, weight) and `facing` (known, azimuth_deg, kappa, weight): a wall whose azimuth is known
 * takes the row of that degree; one whose azimuth is not on record is drawn over the prior of the orientation. Without a
 * record there is one row, known NULL, for all.
 */
export async function loadWind(
  engine: Engine,
  { wind, kappa }: WindInRain,
  settings: Settings,
): Promise<void> {
  await engine.load(
    'wind',
    wind === null
      ? referenceColumns(priorIn(settings, 'prior_wind'))
      : { n: 1, cols: { wind_m_s: Float64Array.of(wind), weight: Float64Array.of(1) } },
  );
  await engine.load('facing', facingTable(kappa, priorIn(settings, 'prior_orientation')));
}

function facingTable(kappa: Float64Array, orientation: readonly ReferenceRow[]) {
  const one = kappa.length === 1;
  const drawn = one
    ? [{ azimuth: Number.NaN, weight: 1 }]
    : orientation.map((row) => ({
        azimuth: Number(row.azimuth_deg),
        weight: Number(row.weight),
      }));
  const known = one ? [] : Array.from(kappa.keys());
  return {
    n: known.length + drawn.length,
    cols: {
      known: Float64Array.from([...known, ...drawn.map(() => Number.NaN)]),
      azimuth_deg: Float64Array.from([...known, ...drawn.map(({ azimuth }) => azimuth)]),
      kappa: Float64Array.from([
        ...kappa.subarray(0, known.length),
        ...drawn.map(({ azimuth }) => kappa[one ? 0 : azimuth]!),
      ]),
      weight: Float64Array.from([...known.map(() => 1), ...drawn.map(({ weight }) => weight)]),
    },
  };
}
