import { type NumberReader, numberReader, type Reading } from '../read/cells.ts';
import { type ColumnRule, isNumeric } from '../read/schema.ts';
import { wordsIn } from './heading-words.ts';
import { type ColumnUnit, toContract, unitSpelt, unitsFor } from './units.ts';

/** A number, then what is no part of it: `1,200 sq ft`, `35'`, `3/16"`, `$4.2M`. */
const numberAndUnit =
  /^([^\p{L}"'″′”%°\d]*[\d.,]*\d(?:\s\d{3})*(?:[\s-]+\d+\/\d+|\/\d+)?)\s*-?\s*((?:\p{L}|["'″′”%°]).*)$/u;

const marks: ReadonlyMap<string, string> = new Map([
  ['"', 'in'],
  ['″', 'in'],
  ['”', 'in'],
  ["''", 'in'],
  ["'", 'ft'],
  ['′', 'ft'],
]);

const longest = 60;

interface NumberWithUnit {
  readonly number: string;
  readonly unit: ColumnUnit;
}

/** A cell that names its own unit: the number as written and that unit; null where it names none of the column's. */
export function numberWithUnit(text: string, column: string): NumberWithUnit | null {
  if (text.length > longest || unitsFor(column).length === 0) return null;
  const [, number, tail] = numberAndUnit.exec(text) ?? [];
  if (number === undefined || tail === undefined) return null;
  const words = wordsIn(marks.get(tail) ?? tail.replace(/\.$/, ''));
  const unit = unitSpelt(words, column) ?? unitSpelt(['$', ...words], column);
  return unit && { number, unit };
}

/** `3/16`, `1 1/2`: how inches are written. NaN for anything else. */
function fraction(text: string): number {
  const parts = /^(?:(\d+)[\s-]+)?(\d+)\/(\d+)$/.exec(text);
  if (!parts) return Number.NaN;
  const value = Number(parts[1] ?? 0) + Number(parts[2]) / Number(parts[3]);
  return Number.isFinite(value) ? value : Number.NaN;
}

/** `34'-6"` in inches; NaN for anything else. */
function feetAndInches(text: string): number {
  const parts = /^(\d+)\s*(?:'|′|ft\.?)[\s-]*(\d+(?:\.\d+)?)\s*(?:"|″|”|''|in\.?)$/i.exec(text);
  return parts ? 12 * Number(parts[1]) + Number(parts[2]) : Number.NaN;
}

/**
 * Reads the cells of a numeric column that its file gives in `unit` (null: the contract's own) as numbers in the unit of
 * the contract. A cell that names its own unit (`35 ft` in a column of metres) is read in that one; fractions and feet
 * with inches are read too. NaN where there is no number. Not rounded: 45 ft are 13.716000000000001 m.
 */
export function quantityReader(
  rule: ColumnRule,
  unit: string | null,
  reading: Reading,
): NumberReader {
  if (!isNumeric(rule)) throw new Error(`${rule.name} holds no numbers`);
  const { name } = rule;
  const plain = numberReader(rule.kind, reading);
  const units = unitsFor(name);
  const inches = units.some((one) => one.unit === 'in');
  const number = (text: string): number => {
    const value = plain(text);
    return Number.isNaN(value) && inches ? fraction(text) : value;
  };
  return (text) => {
    const value = number(text);
    if (!Number.isNaN(value)) return toContract(value, name, unit);
    if (units.length === 0 || text.length > longest) return value;
    if (inches && text.length > 3) {
      const long = feetAndInches(text);
      if (!Number.isNaN(long)) return toContract(long, name, 'in');
    }
    const own = numberWithUnit(text, name);
    return own ? toContract(number(own.number), name, own.unit.unit) : Number.NaN;
  };
}
