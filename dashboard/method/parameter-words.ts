import { figureOf, joined } from '../parts/format.ts';
import type { Units } from '../parts/quantity.ts';
import { plainWord } from '../parts/words.ts';

/** Parameters of the station adjustment, by their names in the rain report. */
const names: Readonly<Record<string, string>> = {
  range_km: 'range of the correlation',
  nugget: 'nugget, as a share of the sill',
  sill: 'sill of ln rain',
  lambda: 'λ, widening of the interval',
  grid_ln_sd: 's of the grid alone, ln',
  period_shift: 'period shift, ln',
  rho: 'ρ, what leaving stations out cannot see, ln',
};

export const parameterName = (name: string): string => names[name] ?? plainWord(name);

/** Four figures; a distance in the units of the sheet. */
export const parameterValue = (name: string, value: number, units: Units): string =>
  name.endsWith('_km')
    ? joined(figureOf(value, 'far', units))
    : String(Number(value.toPrecision(4)));
