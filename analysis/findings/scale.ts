/** What a wall is known by to the calibration: predictors of the index, and nothing else. */
export interface Predictors {
  /** Load w of the index, above 0; its logarithm is taken. */
  readonly w: number;
  /** Drainage deficiency d. */
  readonly d: number;
  /** Susceptibility s. */
  readonly s: number;
}

interface Axis {
  readonly name: 'ln w' | 'd' | 's';
  readonly mean: number;
  readonly sd: number;
  /** Range of the findings: beyond it nothing was learnt. */
  readonly least: number;
  readonly most: number;
}

/** One axis for each predictor, in the order ln w, d, s. */
export type Scale = readonly Axis[];

const raw = ({ w, d, s }: Predictors): readonly number[] => [Math.log(w), d, s];

/** Mean, standard deviation and range of each predictor over the findings. */
export function scaleOf(walls: readonly Predictors[]): Scale {
  const rows = walls.map(raw);
  return (['ln w', 'd', 's'] as const).map((name, k) => {
    const values = rows.map((row) => row[k]!);
    const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
    const square = values.reduce((sum, v) => sum + (v - mean) ** 2, 0);
    const sd = Math.sqrt(square / Math.max(1, values.length - 1));
    return { name, mean, sd, least: Math.min(...values), most: Math.max(...values) };
  });
}

/** Slack of the range, so that a finding lies within the range that it made. */
const slack = 1e-9;

/** A leading 1 and the standardised predictors; one that never differed says nothing and is 0. */
export function standardised(scale: Scale, wall: Predictors): Float64Array {
  const row = raw(wall);
  return Float64Array.from([
    1,
    ...scale.map(({ mean, sd }, k) => (sd > slack ? (row[k]! - mean) / sd : 0)),
  ]);
}

/** The names of the predictors in which a wall lies beyond the findings. */
export function beyond(scale: Scale, wall: Predictors): string[] {
  const row = raw(wall);
  return scale
    .filter(({ least, most }, k) => !(row[k]! >= least - slack && row[k]! <= most + slack))
    .map(({ name }) => name);
}
