/**
 * Which rows of a long list are shown: those that are chosen, so that they can be seen and taken back, and the first of
 * the others as room allows. Order is kept.
 * @param room rows; where not all fit, one is given up to the line that counts the rest
 */
export function foremost<T>(
  words: readonly T[],
  chosen: readonly T[],
  room: number,
): { readonly shown: readonly number[]; readonly left: readonly number[] } {
  const all = [...words.keys()];
  if (words.length <= room) return { shown: all, left: [] };
  const kept = all.filter((row) => chosen.includes(words[row]!)).slice(0, room - 1);
  const others = all.filter((row) => !kept.includes(row)).slice(0, room - 1 - kept.length);
  const shown = new Set([...kept, ...others]);
  return { shown: all.filter((row) => shown.has(row)), left: all.filter((row) => !shown.has(row)) };
}
