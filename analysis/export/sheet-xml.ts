import { looksLikeFormula } from './formula.ts';
import type { OutValue } from './out-table.ts';

/** A cell of a worksheet holds so many UTF-16 units (Excel specifications and limits); more is refused as damage. */
export const cellLimit = 32_767;

/** Cell formats of the workbook, in the order of `cellXfs` in its styles. */
export const format = { plain: 0, literal: 1, heading: 2, wrapped: 3 } as const;

/** Letters of a column counted from 0: A, B, … Z, AA. */
export function columnLetters(column: number): string {
  const rest = Math.floor(column / 26) - 1;
  return (rest < 0 ? '' : columnLetters(rest)) + String.fromCharCode(65 + (column % 26));
}

/** The XML of a row (ECMA-376 part 1, 18.3.1.73): numbers as numbers, texts as inline texts, nothing as a formula. */
export function rowXml(
  cells: readonly OutValue[],
  row: number,
  letters: readonly string[],
  style: number,
): string {
  return `<row r="${row}">${cells.map((value, i) => cellXml(value, `${letters[i]}${row}`, style)).join('')}</row>`;
}

function cellXml(value: OutValue, at: string, style: number): string {
  if (value === null) return '';
  if (typeof value === 'number') return `<c r="${at}"><v>${value}</v></c>`;
  // A text cell is a text whatever it begins with, but one that is opened for editing and closed again is read anew:
  // the literal format keeps it a text.
  const s = looksLikeFormula(value) ? format.literal : style;
  const text = escaped(value);
  return `<c r="${at}" s="${s}" t="inlineStr"><is><t xml:space="preserve">${text}</t></is></c>`;
}

const entities: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;' };

/**
 * Text as ST_Xstring (ECMA-376 part 1, 22.9.2.19): characters that XML 1.0 cannot carry stand as `_xHHHH_`, and what
 * looks like one of these has its underscore written so. A line break within a cell is a line feed.
 */
export const escaped = (text: string): string =>
  text
    .replace(/\r\n?/g, '\n')
    .replace(/_(?=x[0-9a-f]{4}_)/gi, '_x005F_')
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for.
    .replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/g, (character) => {
      const code = character.charCodeAt(0).toString(16).toUpperCase();
      return `_x${code.padStart(4, '0')}_`;
    })
    .replace(/[&<>]/g, (mark) => entities[mark]!);

/** A text that is longer than a cell, cut, with a sentence at its end that says so; any other text as it is. */
export function fitted(text: string): string {
  if (text.length <= cellLimit) return text;
  const note = ` … [cut: this text has ${text.length} characters and a cell of a workbook holds ${cellLimit}; CSV, JSON and Parquet keep it whole]`;
  // Not between the halves of a surrogate pair.
  return text.slice(0, cellLimit - note.length).replace(/[\uD800-\uDBFF]$/, '') + note;
}
