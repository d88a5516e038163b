import { type Band, bandsOf, eraBands, heightBands, type NamedBand } from '../bands.ts';
import { tiers } from '../session-types.ts';
import type { Population, StratumField } from './types.ts';

/** The level of each unit in one field. Levels stand in order, so that neighbours are alike; the last is *not on record*. */
export interface Levels {
  readonly field: StratumField;
  /** Whether a level is nearer to the next than to one farther on. */
  readonly ordered: boolean;
  readonly names: readonly string[];
  /** Level of the unit of an ordinal. */
  levelOf(unit: number): number;
}

const heightName = ({ from, below }: Band): string => {
  if (from === undefined) return `below ${below} m`;
  return below === undefined ? `from ${from} m` : `${from}-${below} m`;
};

/** Those of the exposure factor, so that a stratum holds walls of one factor. */
const heights: readonly NamedBand[] = heightBands.map((band) => ({
  ...band,
  label: heightName(band),
}));

/** Four sides; a wall belongs to the one that it faces within 45°. */
const sides = ['faces north', 'faces east', 'faces south', 'faces west'];

function banded(field: StratumField, values: Float64Array, bands: readonly NamedBand[]): Levels {
  const band = bandsOf(values, bands);
  const levelOf = (unit: number): number => (band[unit]! < 0 ? bands.length : band[unit]!);
  const names = bands.map(({ label }) => label);
  return { field, ordered: true, names: [...names, `${field} not on record`], levelOf };
}

function named(
  field: StratumField,
  values: readonly (string | null)[],
  names: readonly string[],
  ordered: boolean,
): Levels {
  const place = new Map(names.map((name, i) => [name, i]));
  const levelOf = (unit: number) => place.get(values[unit] ?? '') ?? names.length;
  return { field, ordered, names: [...names, `${field} not on record`], levelOf };
}

function facing(azimuth: Float64Array): Levels {
  const levelOf = (unit: number): number => {
    const degrees = azimuth[unit]!;
    return Number.isNaN(degrees)
      ? sides.length
      : Math.floor((((degrees + 45) % 360) + 360) / 90) % 4;
  };
  return {
    field: 'orientation',
    ordered: false,
    names: [...sides, 'orientation not on record'],
    levelOf,
  };
}

const sorted = (values: readonly (string | null)[]): string[] =>
  [...new Set(values)].filter((value) => value !== null && value !== '').sort() as string[];

const levelsBy: Readonly<Record<StratumField, (population: Population) => Levels>> = {
  tier: ({ tier }) => named('tier', tier, tiers, true),
  material: ({ material }) => named('material', material, sorted(material), false),
  era: ({ installed }) => banded('era', installed, eraBands),
  orientation: ({ azimuthDeg }) => facing(azimuthDeg),
  height: ({ heightM }) => banded('height', heightM, heights),
};

export const levelsOf = (population: Population, field: StratumField): Levels =>
  levelsBy[field](population);
