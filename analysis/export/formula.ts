/**
 * What a spreadsheet may take for a formula when it opens a text file: = + - @ in first place, in their full-width forms
 * too, or a tab or carriage return, which the spreadsheet drops before it looks again. Blanks and control characters
 * before them do not help: some programs trim.
 */
const formula = /^[\s\p{Cc}\u200B]*[=+\-@＝＋－＠\t\r]/u;

/** A negative number as text is read as the number that it is. */
const negative = /^-(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d+)?$/i;

/** Whether this text has to be marked as text where a spreadsheet decides by itself what a cell is. */
export const looksLikeFormula = (text: string): boolean =>
  formula.test(text) && !negative.test(text);
