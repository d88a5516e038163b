import { longestNumber, readNumber } from './number-text.ts';

export type Axis = 'latitude' | 'longitude';

interface Hemisphere {
  readonly axis: Axis;
  readonly sign: 1 | -1;
  readonly opposite: string;
}

/** O is left out: east in German, west in French and Spanish. */
const hemispheres: Readonly<Record<string, Hemisphere>> = {
  N: { axis: 'latitude', sign: 1, opposite: 'S' },
  S: { axis: 'latitude', sign: -1, opposite: 'N' },
  E: { axis: 'longitude', sign: 1, opposite: 'W' },
  W: { axis: 'longitude', sign: -1, opposite: 'E' },
};

const part = String.raw`(\d{1,3}(?:[.,]\d+)?)`;
/** `47°`, `47°36'`, `47° 36.5`, `47°36'29.5"`. */
const marked = new RegExp(
  String.raw`^${part}\s*[°º˚]\s*(?:${part}\s*(?:['′’´]\s*(?:${part}\s*(?:["″”]|['′’´]{2})?)?)?)?$`,
);
/** `47.6`, `47 36 29`, `47-36-29`, `47:36.5`: a place only with a letter beside it, since `47 608` may be a number. */
const bare = new RegExp(String.raw`^${part}(?:[\s:-]+${part}(?:[\s:-]+${part})?)?$`);

const enclosing = /^([NSEW])?\s*([+−-])?\s*(\d.*?)\s*([NSEW])?$/i;

interface Pieces {
  readonly hemisphere: Hemisphere | null;
  readonly sign: string;
  readonly body: string;
}

/** The text taken apart; null where it is no such notation or has a letter at both ends. */
function piecesOf(text: string): Pieces | null {
  const [, before, sign = '', body, after] = enclosing.exec(text) ?? [];
  if (body === undefined || (before && after)) return null;
  const letter = before ?? after;
  const hemisphere = letter ? hemispheres[letter.toUpperCase()]! : null;
  return { hemisphere, sign: sign.replace('−', '-'), body };
}

/** Degrees, minutes and seconds to degrees; NaN where minutes or seconds are 60 or more, or follow a fraction. */
function sum(parts: readonly string[], decimalComma: boolean): number {
  const values = parts.map((text) => readNumber(text, decimalComma));
  const whole = values.slice(0, -1).every(Number.isInteger);
  const [degrees = Number.NaN, minutes = 0, seconds = 0] = values;
  if (!whole || !(minutes < 60) || !(seconds < 60)) return Number.NaN;
  return parts.length === 1 ? degrees : (3600 * degrees + 60 * minutes + seconds) / 3600;
}

/**
 * A latitude or longitude: a plain number, with a degree sign, with a letter of its hemisphere (`122.3 W`), or in
 * degrees, minutes and seconds (`47°36'29"N`, `47 36 29 N`). NaN where it is none or sign and letter contradict.
 */
export function readDegrees(text: string, decimalComma: boolean): number {
  const plain = readNumber(text, decimalComma);
  if (!Number.isNaN(plain) || text.length > longestNumber) return plain;
  const pieces = piecesOf(text);
  if (!pieces) return Number.NaN;
  const { hemisphere, sign, body } = pieces;
  const found = marked.exec(body) ?? (hemisphere ? bare.exec(body) : null);
  if (!found) return Number.NaN;
  const value = sum(found.slice(1).filter(Boolean), decimalComma);
  const negative = hemisphere ? hemisphere.sign < 0 : sign === '-';
  if (hemisphere && sign !== '' && negative !== (sign === '-')) return Number.NaN;
  return negative ? 0 - value : value;
}

/** The axis that the letter of a hemisphere names; null where there is no letter. */
export const axisOf = (text: string): Axis | null =>
  text.length > longestNumber || !/[NSEW]/i.test(text)
    ? null
    : (piecesOf(text)?.hemisphere?.axis ?? null);

/** The text of the same angle on the other side of the equator or of Greenwich, in the notation of the user. */
export function negatedText(text: string): string {
  const pieces = piecesOf(text);
  if (!pieces?.hemisphere)
    return /^[−-]/.test(text) ? text.slice(1) : `-${text.replace(/^\+/, '')}`;
  return text
    .replace(/[+−-](?=\d)/, (sign, at: number) => (/\d/.test(text.slice(0, at)) ? sign : ''))
    .replace(/^[NSEW]|[NSEW]$/i, (letter) => hemispheres[letter.toUpperCase()]!.opposite);
}
