import { inUnits, quantities } from '../../analysis/units.ts';
import { joined, type Value } from '../parts/format.ts';
import type { Units } from '../parts/quantity.ts';
import { plainWord } from '../parts/words.ts';

type Cells = Readonly<Record<string, Value>>;

/** What was found, and whether the sheathing itself was seen. */
export function foundWords({ condition, sheathing_seen, not_accessible }: Cells): string {
  if (not_accessible === 'yes') return 'not reached';
  const found = condition ? plainWord(`${condition}`) : 'no condition';
  return sheathing_seen === 'yes' ? `sheathing ${found}` : `${found}, sheathing not seen`;
}

/** A reading with its scale; a reading without one cannot be compared. */
export function meterWords({ moisture_pct, reading_scale }: Cells): string {
  if (blank(moisture_pct)) return '';
  const scale = reading_scale ? plainWord(`${reading_scale}`) : 'no scale on record';
  return `${moisture_pct} %, ${scale}`;
}

const blank = (value: Value): boolean => value === null || value === undefined || value === '';

/** The extent in the units in use, to a hundredth of a square metre. */
export function extentWords({ extent_m2 }: Cells, units: Units): string {
  const area = blank(extent_m2) ? null : inUnits(Number(extent_m2), 'area', units);
  return area === null ? '' : joined({ digits: `${area}`, unit: quantities.area[units] });
}
