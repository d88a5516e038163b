/** How a file separates cells and rows. */
export interface Dialect {
  readonly delimiter: string;
  readonly newline: '\n' | '\r';
  /** Whether some rows end with a carriage return and others with a line feed. */
  readonly mixedEnds: boolean;
  /** Characters before the first row that are no data: a line `sep=;` that some spreadsheets write. */
  readonly skip: number;
}

/** In order of preference where a file is parted as well by one as by another. */
const usual = [',', ';', '\t', '|'] as const;
/** Only where every line has as many of it and no usual delimiter parts the file. */
const unusual = ['^', '~'] as const;

/** Lines from which the delimiter is told: the headings, titles above them and some rows. */
const looked = 20;

const count = (text: string, part: string): number => text.split(part).length - 1;

/** The first lines that hold more than delimiters and blanks. */
const tellingLines = (unquoted: string): string[] =>
  unquoted
    .split(/[\r\n]+/, 10 * looked)
    .filter((line) => /[^\s,;|]/.test(line) || line.includes('""'))
    .slice(0, looked);

/** How a mark would part the lines. */
interface Parting {
  readonly delimiter: string;
  /** Marks of each line. */
  readonly marks: readonly number[];
}

const partingBy = (lines: readonly string[], delimiter: string): Parting => ({
  delimiter,
  marks: lines.map((line) => count(line, delimiter)),
});

/** Marks in all of the lines that have as many; where lines differ, of those in which they are most. */
function weight({ marks }: Parting): number {
  const lines = marks.filter((n) => n > 0).length;
  // A mark in a single line is a delimiter only where that line can be the heading row.
  if (lines === 1 && marks[0] === 0) return 0;
  return Math.max(0, ...marks.map((n) => n * marks.filter((other) => other === n).length));
}

/** Whether a mark stands in some of another's lines only: a comma before decimals stands in no heading row. */
const isWithin = ({ marks }: Parting, other: Parting): boolean =>
  marks.every((n, i) => n === 0 || other.marks[i]! > 0) &&
  marks.some((n, i) => n === 0 && other.marks[i]! > 0);

function guessDelimiter(lines: readonly string[]): string {
  const found = usual.map((delimiter) => partingBy(lines, delimiter));
  const own = found.filter((one) => !found.some((other) => isWithin(one, other)));
  const best = own.reduce((a, b) => (weight(b) > weight(a) ? b : a));
  if (weight(best) > 0) return best.delimiter;
  const even = (mark: string): boolean =>
    partingBy(lines, mark).marks.every((n, _, [first]) => n > 0 && n === first);
  return (lines.length >= 2 ? unusual.find(even) : undefined) ?? ',';
}

/**
 * Guesses the dialect from the beginning of a file. The delimiter is the one that parts the first lines into the most cells,
 * counting lines of the same number of cells outside quotation marks, so that titles above the headings do not count, nor
 * commas before decimals, which stand in rows only; rows end with a line feed, or with a carriage return where there is no line feed at all (carriage returns before a line
 * feed are blanks at the end of a cell).
 */
export function guessDialect(beginning: string): Dialect {
  const declared = /^sep=([,;\t|^~])\r?(?:\n|\r)/i.exec(beginning);
  const unquoted = beginning.replace(/"[^"]*"/g, '""');
  const newline = unquoted.includes('\n') || !unquoted.includes('\r') ? '\n' : '\r';
  return {
    delimiter: declared?.[1] ?? guessDelimiter(tellingLines(unquoted)),
    newline,
    mixedEnds: newline === '\n' && /\r+[^\r\n]/.test(unquoted),
    skip: declared?.[0].length ?? 0,
  };
}
