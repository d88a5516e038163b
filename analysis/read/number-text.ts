/** A way of writing numbers, and how to make it one that the language reads. */
interface Notation {
  readonly form: RegExp;
  readonly plain: (text: string) => string;
  /** Only in files whose numbers have decimal commas: elsewhere the same text is a thousand times as much, or no number. */
  readonly decimalComma?: true;
}

const without = (marks: RegExp) => (text: string) => text.replace(marks, '');
const commaToPoint = (marks: RegExp) => (text: string) => text.replace(marks, '').replace(',', '.');

const plainForm = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d{1,3})?$/i;

/** Tried in this order. A blank between thousands may be any of Unicode's, an apostrophe straight or curly. */
const notations: readonly Notation[] = [
  { form: plainForm, plain: (text) => text },
  { form: /^[+-]?\d*,\d+$/, plain: (text) => text.replace(',', '.'), decimalComma: true },
  { form: /^[+-]?\d{1,3}(?:\.\d{3})+,\d+$/, plain: commaToPoint(/\./g) },
  { form: /^[+-]?\d{1,3}(?:\.\d{3}){2,}$/, plain: without(/\./g) },
  { form: /^[+-]?\d{1,3}(?:[\s'’]\d{3})+(?:,\d+)?$/, plain: commaToPoint(/[\s'’]/g) },
  { form: /^[+-]?\d{1,3}(?:,\d{3})+(?:\.\d+)?$/, plain: without(/,/g) },
  { form: /^[+-]?\d{1,3}(?:[\s'’]\d{3})+(?:\.\d+)?$/, plain: without(/[\s'’]/g) },
];

/** Characters beyond which a cell is no number: a page of text is not worth looking through for one. */
export const longestNumber = 40;

/**
 * The number a cell holds: plain, or with points, commas, blanks or apostrophes between thousands; `12,5` and `1,250` have
 * a decimal comma only in a file that uses it. NaN for anything else, for what is too large to be a number, and for the
 * words NaN and Infinity.
 */
export function readNumber(text: string, decimalComma: boolean): number {
  if (text.length > longestNumber) return Number.NaN;
  const value = plainForm.test(text) ? Number(text) : readNotation(text, decimalComma);
  return Number.isFinite(value) ? value : Number.NaN;
}

function readNotation(text: string, decimalComma: boolean): number {
  const signed = text.replace('−', '-');
  const notation = notations.find(
    (way) => (decimalComma || !way.decimalComma) && way.form.test(signed),
  );
  return notation ? Number(notation.plain(signed)) : Number.NaN;
}
