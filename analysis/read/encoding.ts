import { Refusal } from './outcome.ts';

export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be';

/** First bytes of formats that people send instead of a CSV file. */
const signatures: readonly { readonly bytes: readonly number[]; readonly what: string }[] = [
  { bytes: [0x50, 0x4b, 0x03, 0x04], what: 'a spreadsheet workbook or a zip archive' },
  { bytes: [0x50, 0x4b, 0x05, 0x06], what: 'an empty zip archive' },
  { bytes: [0xd0, 0xcf, 0x11, 0xe0], what: 'an old spreadsheet workbook' },
  { bytes: [0x25, 0x50, 0x44, 0x46], what: 'a PDF document' },
  { bytes: [0x1f, 0x8b], what: 'a compressed archive' },
  { bytes: [0x37, 0x7a, 0xbc, 0xaf], what: 'a compressed archive' },
  { bytes: [0x50, 0x41, 0x52, 0x31], what: 'a Parquet file' },
  { bytes: [0x53, 0x51, 0x4c, 0x69, 0x74, 0x65], what: 'a database' },
  { bytes: [0x89, 0x50, 0x4e, 0x47], what: 'a picture' },
  { bytes: [0xff, 0xd8, 0xff], what: 'a picture' },
  { bytes: [0x7b, 0x5c, 0x72, 0x74, 0x66], what: 'a word-processor document' },
];

const marks: readonly { readonly bytes: readonly number[]; readonly encoding: Encoding }[] = [
  { bytes: [0xef, 0xbb, 0xbf], encoding: 'utf-8' },
  { bytes: [0xff, 0xfe], encoding: 'utf-16le' },
  { bytes: [0xfe, 0xff], encoding: 'utf-16be' },
];

const startsWith = (head: Uint8Array, bytes: readonly number[]): boolean =>
  bytes.every((byte, i) => head[i] === byte);

const saveAsCsv =
  'Open it where it was made, save the sheet as CSV (UTF-8), and read that file instead.';

/** Zero bytes at even and at odd places: mostly Latin text in UTF-16 has almost only one kind, binary data has both. */
function zeroBytes(head: Uint8Array): { even: number; odd: number } {
  const count = { even: 0, odd: 0 };
  head.forEach((byte, i) => {
    if (byte === 0) count[i % 2 === 0 ? 'even' : 'odd'] += 1;
  });
  return count;
}

function withoutMark(file: string, head: Uint8Array): Encoding {
  const { even, odd } = zeroBytes(head);
  if (even + odd === 0) return 'utf-8';
  if (odd > head.length / 4 && even < odd / 8) return 'utf-16le';
  if (even > head.length / 4 && odd < even / 8) return 'utf-16be';
  throw notText(file);
}

/** The refusal of a file that holds zero bytes among its text. */
export const notText = (file: string): Refusal =>
  new Refusal(file, `${file} is not a text file: it holds binary data. ${saveAsCsv}`);

/** The refusal of bytes that are no text in the encoding found. */
export const undecodable = (file: string, encoding: Encoding): Refusal =>
  new Refusal(
    file,
    encoding === 'utf-8'
      ? `${file} is not UTF-8 text: it was saved in an older encoding, which would garble accented letters. Save it again as "CSV UTF-8".`
      : `${file} looks like UTF-16 text but holds bytes that are none: it was cut short or damaged. Save it again as "CSV UTF-8".`,
  );

/** Encoding of a file by its first bytes. Refuses what is empty, binary, or another format. */
export function sniff(file: string, head: Uint8Array): Encoding {
  if (head.length === 0)
    throw new Refusal(file, `${file} is empty (0 bytes). Choose another file.`);
  const other = signatures.find(({ bytes }) => startsWith(head, bytes));
  if (other) throw new Refusal(file, `${file} is ${other.what}, not a CSV file. ${saveAsCsv}`);
  return marks.find(({ bytes }) => startsWith(head, bytes))?.encoding ?? withoutMark(file, head);
}
