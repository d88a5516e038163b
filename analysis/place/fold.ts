/**
 * The form in which words are compared: lower case, no accents, quotation marks or full stops (but 22.5 keeps its own); spaces, hyphens,
 * underscores, slashes, commas and brackets are one space. `E.I.F.S.` and `eifs` agree, so do `Low-slope` and `low_slope`.
 */
export const fold = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/[\u0300-\u036f'’"“”]|(?<!\d)\.|\.(?!\d)/g, '')
    .toLowerCase()
    .replaceAll('&', ' and ')
    .replace(/[\s\-‐-―_/,()]+/g, ' ')
    .trim();

/** Alternatives of one cell of a table of data/, written `a | b | c`. */
export const alternatives = (cell: string): string[] =>
  cell
    .split('|')
    .map((word) => word.trim())
    .filter((word) => word !== '');

const longestRemembered = 100;

/**
 * Remembers the answers for texts already seen: a portfolio repeats a few words a million times. The limits keep a file
 * in which every cell differs, or is a page long, from filling the memory.
 */
export function remembering<T>(find: (text: string) => T, limit = 10_000): (text: string) => T {
  const known = new Map<string, T>();
  return (text) => {
    const found = known.get(text);
    if (found !== undefined) return found;
    const answer = find(text);
    if (known.size < limit && text.length <= longestRemembered) known.set(text, answer);
    return answer;
  };
}
