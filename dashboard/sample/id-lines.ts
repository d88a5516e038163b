import type { Exclusion } from '../../analysis/sample/frame.ts';

/** What was read from lines, and what is wrong with them. */
export interface Lines<T> {
  readonly read: readonly T[];
  readonly says: readonly string[];
}

const filled = (text: string): { line: string; at: number }[] =>
  text
    .split(/\r?\n/)
    .map((line, i) => ({ line: line.trim(), at: i + 1 }))
    .filter(({ line }) => line !== '');

/** Ids, one a line. */
export const idLines = (text: string): string[] => filled(text).map(({ line }) => line);

/** An id and a reason, one pair a line: parted by a tab, as pasted from a spreadsheet, else by the first semicolon. */
export function exclusionLines(text: string): Lines<Exclusion> {
  const parts = filled(text).map(({ line, at }) => {
    const cut = line.includes('\t') ? line.indexOf('\t') : line.indexOf(';');
    const id = cut < 0 ? line : line.slice(0, cut).trim();
    return { at, id, reason: cut < 0 ? '' : line.slice(cut + 1).trim() };
  });
  const wrong = parts.filter(({ id, reason }) => id === '' || reason === '');
  return {
    read: parts.filter((one) => !wrong.includes(one)).map(({ id, reason }) => ({ id, reason })),
    says: wrong.map(
      ({ at, id }) =>
        `Exclusions, line ${at}: “${id}” needs an id and a reason, parted by a semicolon, such as “B-12; owner declines”.`,
    ),
  };
}
