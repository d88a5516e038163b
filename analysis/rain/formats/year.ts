import { Refusal } from '../../read/outcome.ts';
import {
  factsOf,
  type GridQuantity,
  type GridUnit,
  monthly,
  unitNamesOf,
  unitWritten,
  yearly,
} from '../quantity.ts';

/** How the layers of a file make a year: one layer; months, layer 0 being month `first`; or whole years. */
export type Layers =
  | { readonly kind: 'one'; readonly n: 1 }
  | { readonly kind: 'months'; readonly n: number; readonly first: number }
  | { readonly kind: 'years'; readonly n: number };

/** What each layer counts for in a year: the sum of (value + add) × weight is in the quantity's unit. */
export function weightsOf(unit: GridUnit, layers: Layers): Float64Array {
  if (layers.kind !== 'months') {
    return new Float64Array(layers.n).fill(yearly(unit) / layers.n);
  }
  const years = layers.n / 12;
  return Float64Array.from(
    { length: layers.n },
    (_, k) => monthly(unit, (layers.first + k) % 12) / years,
  );
}

/** Adds a layer's values to the year's, in place. No data in one layer is no data in the year. */
export function addLayer(
  year: Float64Array,
  layer: ArrayLike<number>,
  add: number,
  weight: number,
): void {
  for (let i = 0; i < year.length; i++) year[i] = year[i]! + (layer[i]! + add) * weight;
}

/** A unit, and the sentence where it had to be assumed. */
export interface UnitRead {
  readonly unit: GridUnit;
  readonly assumed: readonly string[];
}

/** The unit written in a file; where there is none, the one values are kept in, said in words. An unknown one is refused. */
export function unitRead(file: string, quantity: GridQuantity, written: string): UnitRead {
  const { noun, unit: kept } = factsOf(quantity);
  const text = written.replaceAll('\0', '').trim();
  const known = unitWritten(quantity, text);
  if (known) return { unit: known, assumed: [] };
  if (text === '') {
    const per = quantity === 'rain' ? `${kept} a year` : kept;
    const assumed = [`${file} names no unit for its ${noun}: ${per} is assumed.`];
    return { unit: unitWritten(quantity, kept)!, assumed };
  }
  throw new Refusal(
    file,
    `${file} gives its ${noun} in “${text}”, a unit we do not know. Known units: ${unitNamesOf(quantity).join(', ')}.`,
  );
}
