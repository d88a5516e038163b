import { type Encoding, undecodable } from './encoding.ts';
import { Refusal } from './outcome.ts';

/** Text of the next bytes; without bytes, the end of the stream. */
export type Decode = (bytes?: Uint8Array) => string;

type Say = (note: string) => void;

const nothing = new Uint8Array(0);

/**
 * Letters of the bytes 0x80 to 0x9f in Windows-1252 (WHATWG Encoding Standard, index windows-1252); all others are their own
 * numbers in Unicode. Written out here, since Node's own decoder of that name reads them as Latin-1. The five of no letter
 * are blanks in this list.
 */
const between = '€ ‚ƒ„…†‡ˆ‰Š‹Œ Ž  ‘’“”•–—˜™š›œ žŸ';

const isAscii = (byte: number): boolean => byte < 0x80;

/** Bytes of a UTF-8 sequence by its first byte; 1 where none begins so. */
function sequenceLength(lead: number): number {
  if (lead >= 0xf0) return 4;
  if (lead >= 0xe0) return 3;
  return lead >= 0xc0 ? 2 : 1;
}

/** Bytes at the end that begin a sequence and do not end it. */
function unfinished(bytes: Uint8Array): Uint8Array {
  for (let back = 1; back <= 3 && back <= bytes.length; back += 1) {
    const byte = bytes[bytes.length - back]!;
    if (isAscii(byte)) break;
    if (byte >= 0xc0) return bytes.slice(sequenceLength(byte) > back ? -back : bytes.length);
  }
  return nothing;
}

function joined(a: Uint8Array, b: Uint8Array): Uint8Array {
  const both = new Uint8Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
}

const strict = (encoding: Encoding): TextDecoder => new TextDecoder(encoding, { fatal: true });

/** Whether the first sequence that is not ASCII is one of UTF-8. */
function startsAsUtf8(bytes: Uint8Array): boolean {
  const first = bytes.findIndex((byte) => !isAscii(byte));
  if (first < 0) return true;
  try {
    strict('utf-8').decode(bytes.subarray(first, first + sequenceLength(bytes[first]!)));
    return true;
  } catch {
    return false;
  }
}

function lineFeeds(text: string): number {
  let count = 0;
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) count += 1;
  return count;
}

/** The refusal of a file that is UTF-8 up to some line. */
function mixed(file: string, linesBefore: number, bytes: Uint8Array): Refusal {
  const readable = new TextDecoder('utf-8').decode(bytes).split('\ufffd', 1)[0]!;
  const line = 1 + linesBefore + lineFeeds(readable);
  return new Refusal(
    file,
    `Line ${line} of ${file} holds bytes that are not UTF-8, while the lines above it are: parts of it were saved in another encoding, or it was cut short. Correct that line, or save the file again as "CSV UTF-8".`,
  );
}

/** Codes of letters by byte; 0 where there is no letter. */
const codes = Uint16Array.from({ length: 256 }, (_, byte) => {
  if (byte < 0x80 || byte > 0x9f) return byte;
  const letter = between[byte - 0x80]!;
  return letter === ' ' ? 0 : letter.charCodeAt(0);
});

/** Windows-1252: a byte a letter, so that nothing is pending between pieces. */
function olderDecoder(file: string, say: Say): Decode {
  say(
    `${file} is not UTF-8 text: it was read as Windows-1252, the encoding of older Windows programs. If accented letters look wrong, save it again as "CSV UTF-8".`,
  );
  return (bytes = nothing) => {
    let text = '';
    for (let from = 0; from < bytes.length; from += 4096) {
      const letters = Array.from(bytes.subarray(from, from + 4096), (byte) => codes[byte]!);
      text += String.fromCharCode(...letters);
    }
    // What is no letter in Windows-1252 is text of another encoding, or no text.
    if (bytes.some((byte) => codes[byte] === 0 && byte !== 0)) throw undecodable(file, 'utf-8');
    return text;
  };
}

/**
 * UTF-8, or Windows-1252 from the first byte on that is not ASCII, if that is no UTF-8: what comes before is the same in
 * both. So the decision is the file's alone, wherever its pieces end, and no byte is read twice.
 */
function utf8OrOlder(file: string, say: Say): Decode {
  const decoder = strict('utf-8');
  let older: Decode | undefined;
  let ascii = true;
  let lines = 0;
  let pending: Uint8Array = nothing;
  return (bytes) => {
    if (older) return older(bytes);
    try {
      const text = bytes ? decoder.decode(bytes, { stream: true }) : decoder.decode();
      const { length } = bytes ?? nothing;
      const left = unfinished(length < 3 ? joined(pending, bytes ?? nothing) : bytes!);
      // A letter that is not ASCII takes more bytes than places in a string.
      ascii &&= text.length === pending.length + length - left.length;
      pending = left;
      lines += lineFeeds(text);
      return text;
    } catch {
      const rest = joined(pending, bytes ?? nothing);
      if (!ascii || startsAsUtf8(rest)) throw mixed(file, lines, rest);
      older = olderDecoder(file, say);
      return older(rest);
    }
  };
}

function utf16(file: string, encoding: Encoding): Decode {
  const decoder = strict(encoding);
  return (bytes) => {
    try {
      return bytes ? decoder.decode(bytes, { stream: true }) : decoder.decode();
    } catch {
      throw undecodable(file, encoding);
    }
  };
}

/** How the bytes of a file become text; `say` hears what was assumed. */
export const decoderOf = (file: string, encoding: Encoding, say: Say): Decode =>
  encoding === 'utf-8' ? utf8OrOlder(file, say) : utf16(file, encoding);
