import { figureOf, joined } from './format.ts';
import type { Kind, Units } from './quantity.ts';

/** Units as the analysis writes them inside a sentence, longest first so that `L/m²` is not read as `m²`. */
const written: readonly (readonly [string, Kind, string?])[] = [
  ['L/m² a year', 'wetting', 'gal/ft² a year'],
  ['L/m² yr', 'wetting'],
  ['L/m²', 'wetting', 'gal/ft²'],
  ['mm', 'gap'],
  ['m²', 'area'],
  ['km', 'far'],
  ['m', 'height'],
];

const pattern =
  /(\d[\d,]*(?:\.\d+)?)([\s\u202f\u00a0]?)(L\/m² a year|L\/m² yr|L\/m²|mm|m²|km|m)(?![\w²/])/g;

/**
 * A sentence of the analysis (metric) in the units asked for: each number followed by a known unit is converted,
 * everything else is left as it is. A length in mm of 100 or more is rain, or as coarse as rain: one decimal.
 */
export function sentenceIn(text: string, units: Units): string {
  if (units === 'metric') return text;
  return text.replace(pattern, (whole, number: string, _space: string, unit: string) => {
    const entry = written.find(([name]) => name === unit);
    const value = Number(number.replaceAll(',', ''));
    if (!entry || Number.isNaN(value)) return whole;
    const kind = unit === 'mm' && value >= 100 ? 'rain' : entry[1];
    const figure = figureOf(value, kind, units);
    return joined({ ...figure, unit: entry[2] ?? figure.unit });
  });
}
