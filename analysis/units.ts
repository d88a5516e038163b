/** Metric is what the method works in; American is what half of its users read. */
export const unitSystems = ['metric', 'american'] as const;
export type UnitSystem = (typeof unitSystems)[number];

/** A quantity that is written in another unit on American sheets. Factors are exact by definition of inch and gallon. */
export interface Quantity {
  readonly metric: string;
  readonly american: string;
  /** Multiply the metric figure by this. */
  readonly factor: number;
  /** Decimals shown and exported, in either system. */
  readonly decimals: { readonly metric: number; readonly american: number };
}

const MM_PER_IN = 25.4;
const L_PER_GALLON = 3.785411784;
const M2_PER_FT2 = 0.3048 ** 2;

export const quantities = {
  rain: {
    metric: 'mm',
    american: 'in',
    factor: 1 / MM_PER_IN,
    decimals: { metric: 1, american: 2 },
  },
  gap: {
    metric: 'mm',
    american: 'in',
    factor: 1 / MM_PER_IN,
    decimals: { metric: 1, american: 3 },
  },
  wetting: {
    metric: 'L/m²',
    american: 'gal/ft²',
    factor: M2_PER_FT2 / L_PER_GALLON,
    decimals: { metric: 2, american: 4 },
  },
  area: {
    metric: 'm²',
    american: 'ft²',
    factor: 1 / M2_PER_FT2,
    decimals: { metric: 2, american: 1 },
  },
  height: { metric: 'm', american: 'ft', factor: 1 / 0.3048, decimals: { metric: 1, american: 0 } },
} as const satisfies Record<string, Quantity>;
export type QuantityName = keyof typeof quantities;

/** A metric figure in the given system, rounded to that system's decimals; null and NaN are null. */
export function inUnits(
  value: number | null,
  name: QuantityName,
  system: UnitSystem,
): number | null {
  if (value === null || Number.isNaN(value)) return null;
  const quantity = quantities[name];
  const power = 10 ** quantity.decimals[system];
  return Math.round(value * (system === 'metric' ? 1 : quantity.factor) * power) / power;
}

const sixteenths = new Map([
  [4.8, '3/16 in'],
  [6.4, '1/4 in'],
]);

/** A gap in words: `4.8 mm`, or `3/16 in`, `1/4 in`, `0.39 in`. */
export function gapWords(mm: number, system: UnitSystem): string {
  if (system === 'metric') return `${mm} mm`;
  return sixteenths.get(mm) ?? `${Math.round((mm / MM_PER_IN) * 100) / 100} in`;
}

/** A wetting in words, whole litres or hundredths of a gallon: `121 L/m²`, `2.97 gal/ft²`. */
export function wettingWords(litres: number, system: UnitSystem): string {
  if (system === 'metric') return `${Math.round(litres)} L/m²`;
  return `${Math.round(litres * quantities.wetting.factor * 100) / 100} gal/ft²`;
}
