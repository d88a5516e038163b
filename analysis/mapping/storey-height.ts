import { numberReader } from '../read/cells.ts';
import { guessReading, median } from './profile.ts';
import type { Fill, Settled } from './shape.ts';
import { unitsFor } from './units.ts';

/** Heights of one storey, roof and parapet included, that only one unit explains. Common practice, no source. */
const ofStorey: readonly {
  readonly unit: string | null;
  readonly least: number;
  readonly most: number;
}[] = [
  { unit: null, least: 2, most: 6.5 },
  { unit: 'ft', least: 7, most: 22 },
];

const fillOf = ({ fills }: Settled, column: string): Fill | undefined =>
  fills.find((fill) => fill.table === 'building' && fill.column === column);

/** Height over storeys, the middle of all records that have both. */
function perStorey(height: Fill, storeys: Fill, decimalComma: boolean): number {
  const read = numberReader('number', guessReading(decimalComma));
  const counts = storeys.from.profile.cells.map(read);
  return median(height.from.profile.cells.map((cell, i) => read(cell) / counts[i]!));
}

/** Tells metres from feet by the storeys, where heights come without a unit. */
export function withHeightUnit(shaped: Settled, decimalComma: boolean): Settled {
  const height = fillOf(shaped, 'height_m');
  const storeys = fillOf(shaped, 'storeys');
  if (!height?.from.unitGuessed || !storeys) return shaped;
  const each = perStorey(height, storeys, decimalComma);
  const found = ofStorey.find(({ least, most }) => each >= least && each <= most);
  if (!found) return shaped;
  const label = found.unit ?? unitsFor('height_m')[0]!.label;
  const why = `by its name; a storey would be ${Math.round(10 * each) / 10} high, so its unit is ${label}`;
  const from = { ...height.from, unit: found.unit, unitGuessed: false, why };
  return {
    ...shaped,
    fills: shaped.fills.map((fill) => (fill === height ? { ...fill, from } : fill)),
  };
}
