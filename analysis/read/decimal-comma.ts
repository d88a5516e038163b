import { longestNumber } from './number-text.ts';

/** The digits and separators of a cell that may carry a sign, a currency mark or a unit. */
const figure = /^[^\d.,+−-]{0,4}[+−-]?(\d[\d.,\s'’]*\d)\D{0,8}$/;

/** Forms in which `mark` can only stand before decimals, or `other` only between thousands. */
function formsWith(mark: string, other: string): RegExp {
  const forms = [
    String.raw`\d+${mark}(?:\d{1,2}|\d{4,})`,
    String.raw`(?:0|\d{4,})${mark}\d{3}`,
    String.raw`\d{1,3}(?:[${other}\s'’]\d{3})+${mark}\d+`,
    String.raw`\d{1,3}(?:${other}\d{3}){2,}`,
  ];
  return new RegExp(`^(?:${forms.join('|')})$`);
}

const comma = formsWith(',', String.raw`\.`);
const point = formsWith(String.raw`\.`, ',');

/** Cells looked at: enough to outvote a column of dates or version numbers, few enough to cost nothing. */
const mostCells = 20_000;

/**
 * Whether a comma stands before the decimals in these cells. Each cell whose form admits one reading only is a vote:
 * `12,5`, `0,125`, `1.250,5` and `1.250.000` for the comma, `12.5`, `0.125`, `1,250.5` and `1,250,000` for the point.
 * `1,250` and `1.250` can be read both ways and do not vote. Without a majority it is as `otherwise` says.
 */
export function usesDecimalComma(
  records: readonly (readonly string[])[],
  otherwise: boolean,
): boolean {
  let votes = 0;
  let seen = 0;
  for (const record of records) {
    for (const cell of record) votes += vote(cell.trim());
    seen += record.length;
    if (seen > mostCells) break;
  }
  return votes === 0 ? otherwise : votes > 0;
}

function vote(cell: string): number {
  if (cell.length > longestNumber) return 0;
  const digits = figure.exec(cell)?.[1];
  if (digits === undefined) return 0;
  if (comma.test(digits)) return 1;
  return point.test(digits) ? -1 : 0;
}
