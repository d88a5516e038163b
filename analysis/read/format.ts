import { type ByteSource, Refusal } from './outcome.ts';

/** What kind of table file: delimited text, an XLSX workbook, JSON of any kind, or Parquet. */
export type Format = 'text' | 'workbook' | 'json' | 'parquet';

/** Bytes in which the format shows. */
const headLength = 4096;

/** First bytes, as Latin-1 text, of what is read otherwise than as text. */
const beginnings: readonly (readonly [string, Format | 'compound'])[] = [
  ['PK\x03\x04', 'workbook'],
  ['PK\x05\x06', 'workbook'],
  ['PAR1', 'parquet'],
  ['PARE', 'parquet'],
  ['\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1', 'compound'],
];

const jsonName = /\.(?:geo|topo)?json[ls]?$|\.(?:nd)(?:geo)?json$/i;

/** The head without mark, blanks, record separators and the zero bytes of UTF-16. */
const plain = (head: string): string =>
  [...head.replace(/^(?:\xef\xbb\xbf|\xff\xfe|\xfe\xff)/, '')]
    .filter((letter) => letter > ' ')
    .join('');

const isBinary = (head: string): boolean => [...head].some((letter) => letter < '\t');

const isJson = (head: string): boolean => /^(?:\{["}]|\[[{[\]])/.test(plain(head));

const latin1 = (bytes: Uint8Array): string => {
  let text = '';
  for (let from = 0; from < bytes.length; from += 8192) {
    text += String.fromCharCode(...bytes.subarray(from, from + 8192));
  }
  return text;
};

const utf16 = (name: string): string => [...name].map((letter) => `${letter}\0`).join('');

/**
 * What an old office document holds, told from the names in its directory (MS-CFB 2.6.1, in UTF-16), which may stand
 * anywhere: a megabyte at either end is looked through.
 */
async function refuseCompound(source: ByteSource): Promise<never> {
  const { name, size } = source;
  const ends = [await source.slice(0, Math.min(size, 1 << 20))];
  if (size > 1 << 20) ends.push(await source.slice(Math.max(1 << 20, size - (1 << 20)), size));
  const text = ends.map(latin1).join('');
  const locked = text.includes(utf16('EncryptedPackage'));
  throw new Refusal(
    name,
    locked
      ? `${name} is locked with a password. Open it in the spreadsheet program, save a copy without the password, and choose the copy.`
      : `${name} is in an old office format (such as .xls). Open it where it was made, save the sheet as an XLSX workbook or as CSV (UTF-8), and choose that file.`,
  );
}

/** Finds the format of a file by its first bytes, and by its name where these may be any text. */
export async function formatOf(source: ByteSource): Promise<Format> {
  if (source.size === 0) return 'text';
  const head = latin1(await source.slice(0, Math.min(source.size, headLength)));
  const found = beginnings.find(([begins]) => head.startsWith(begins))?.[1];
  if (found === 'compound') return refuseCompound(source);
  if (found) return found;
  return isJson(head) || (jsonName.test(source.name) && !isBinary(head)) ? 'json' : 'text';
}
