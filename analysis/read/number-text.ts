/** A way of writing numbers, and how to make it one that the language reads. */
interface Notation {
  readonly form: RegExp;
  readonly plain: (text: string) => string;
  /** Only in files whose cells are separated by semicolons. */
  readonly decimalComma?: true;
}

const without = (marks: RegExp) => (text: string) => text.replace(marks, '');

const plainForm = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d{1,3})?$/i;

/** Tried in this order. A comma before decimals counts only where it cannot be the delimiter's or a thousands mark. */
const notations: readonly Notation[] = [
  { form: plainForm, plain: (text) => text },
  { form: /^[+-]?\d*,\d+$/, plain: (text) => text.replace(',', '.'), decimalComma: true },
  {
    form: /^[+-]?\d{1,3}(?:\.\d{3})+(?:,\d+)?$/,
    plain: (text) => text.replaceAll('.', '').replace(',', '.'),
    decimalComma: true,
  },
  {
    form: /^[+-]?\d{1,3}(?:[\s'’]\d{3})+(?:,\d+)?$/,
    plain: (text) => text.replace(/[\s'’]/g, '').replace(',', '.'),
    decimalComma: true,
  },
  { form: /^[+-]?\d{1,3}(?:,\d{3})+(?:\.\d+)?$/, plain: without(/,/g) },
  { form: /^[+-]?\d{1,3}(?:[\s'’]\d{3})+(?:\.\d+)?$/, plain: without(/[\s'’]/g) },
];

/** Characters beyond which a cell is no number: a page of text is not worth looking through for one. */
export const longestNumber = 40;

/**
 * The number a cell holds: plain, or with thousands separators; with a decimal comma only in a semicolon file.
 * NaN for anything else, for what is too large to be a number, and for the words NaN and Infinity.
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
