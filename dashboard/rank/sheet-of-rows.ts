/**
 * Browsers stop drawing at some 17 million px of height, so a very long ranking is cut into sheets of rows.
 * A portfolio of ordinary size is one sheet and never sees a seam.
 */
export const rowsPerSheet = 100_000;

export const sheetCount = (rows: number): number => Math.max(1, Math.ceil(rows / rowsPerSheet));

/** The sheet that holds a position of the ranking (0-based), and the place in it. */
export const sheetOf = (position: number): { sheet: number; local: number } => ({
  sheet: Math.floor(position / rowsPerSheet),
  local: position % rowsPerSheet,
});

export const rowsOn = (sheet: number, rows: number): number =>
  Math.max(0, Math.min(rowsPerSheet, rows - sheet * rowsPerSheet));

/** Where a key moves the pencil: a position of the ranking, or null for a key that does not move it. */
export function moved(key: string, at: number | null, rows: number, page: number): number | null {
  const steps: Readonly<Record<string, number>> = {
    ArrowDown: at === null ? 0 : at + 1,
    ArrowUp: at === null ? 0 : at - 1,
    PageDown: (at ?? 0) + page,
    PageUp: (at ?? 0) - page,
    Home: 0,
    End: rows - 1,
  };
  const to = steps[key];
  return to === undefined || rows === 0 ? null : Math.max(0, Math.min(rows - 1, to));
}
