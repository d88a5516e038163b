import { counted, type Outcome, type Population, refused } from './types.ts';

/** Units without size are drawn as if they had this share of the mean size: no unit of the frame may be out of reach. */
export const defaultFloor = 0.01;

export interface Sized {
  /** Wetting × area by ordinal, litres a year; above 0 for every unit asked for. */
  readonly sizes: Float64Array;
}

const mean = (values: Float64Array): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** A blank area counts as the mean of those on record, else as 1 m²; a blank wetting as 0. */
function products({ wetting, areaM2 }: Population, units: Int32Array) {
  const known = Float64Array.from(units, (unit) => areaM2[unit]!).filter(
    (area) => !Number.isNaN(area),
  );
  const typical = known.length > 0 ? mean(known) : 1;
  const of = (unit: number): number => {
    const area = areaM2[unit]!;
    const load = wetting[unit]!;
    return (Number.isNaN(load) ? 0 : load) * (Number.isNaN(area) ? typical : area);
  };
  return { values: Float64Array.from(units, of), blanks: units.length - known.length };
}

/** Size of each unit: wetting × area. A negative one is refused; those at 0 are raised to `floor` × the mean of the others. */
export function sizesOf(population: Population, units: Int32Array, floor: number): Outcome<Sized> {
  const { id, unit, n } = population;
  const negative = units.find((one) => population.wetting[one]! < 0 || population.areaM2[one]! < 0);
  if (negative !== undefined)
    return refused(
      `The ${unit} ${id[negative]} has a wetting or an area below 0: mend it in the file, then choose again.`,
    );
  if (!(floor > 0 && floor <= 1))
    return refused(
      'The size given to units without one must lie above 0 and at most at 100 % of the mean size.',
    );
  const { values, blanks } = products(population, units);
  const positive = values.filter((value) => value > 0);
  const least = positive.length > 0 ? mean(positive) * floor : 1;
  const sizes = new Float64Array(n).fill(Number.NaN);
  units.forEach((one, k) => {
    sizes[one] = values[k]! > 0 ? values[k]! : least;
  });
  const says: string[] = [];
  const zero = units.length - positive.length;
  if (zero > 0)
    says.push(
      `${counted(zero, unit)} without a size (wetting × area) drawn as if of ${Math.round(floor * 1000) / 10} % of the mean size.`,
    );
  if (blanks > 0)
    says.push(`${counted(blanks, unit)} without an area taken to have the mean area.`);
  return { ok: true, sizes, says };
}
