/** How a file separates cells and rows. */
export interface Dialect {
  readonly delimiter: string;
  readonly newline: '\n' | '\r';
  /** Characters before the heading row that are no data: a line `sep=;` that some spreadsheets write. */
  readonly skip: number;
}

/** In order of preference where a heading row holds as many of one as of another. */
const delimiters = [',', ';', '\t', '|'] as const;

const count = (text: string, part: string): number => text.split(part).length - 1;

/** The first line that holds more than delimiters and blanks. */
const headingLine = (unquoted: string): string =>
  unquoted.split(/[\r\n]/).find((line) => /[^\s,;|]/.test(line) || line.includes('""')) ?? '';

function guessDelimiter(line: string): string {
  const counts = delimiters.map((delimiter) => count(line, delimiter));
  const most = Math.max(...counts);
  return most === 0 ? ',' : delimiters[counts.indexOf(most)]!;
}

/**
 * Guesses the dialect from the beginning of a file: the delimiter is the one that occurs most in the heading row,
 * outside quotation marks; rows end with a line feed, or with a carriage return where there is no line feed at all
 * (a carriage return before a line feed is a blank at the end of a cell).
 */
export function guessDialect(beginning: string): Dialect {
  const declared = /^sep=([,;\t|])\r?(?:\n|\r)/i.exec(beginning);
  const unquoted = beginning.replace(/"[^"]*"/g, '""');
  return {
    delimiter: declared?.[1] ?? guessDelimiter(headingLine(unquoted)),
    newline: unquoted.includes('\n') || !unquoted.includes('\r') ? '\n' : '\r',
    skip: declared?.[0].length ?? 0,
  };
}
