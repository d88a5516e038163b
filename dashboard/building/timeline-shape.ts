import type { EditionAnswer } from '../../analysis/session-types.ts';

export type AnswerKind = 'asks' | 'quiet' | 'open';

/** `asks: …`, `does not ask` and `cannot tell: …` as the kind of mark they are drawn with. */
export function answerKind(answer: string): AnswerKind {
  if (answer.startsWith('asks')) return 'asks';
  return answer === 'does not ask' ? 'quiet' : 'open';
}

/** Years drawn before the first mark, so that it does not stand on the edge. */
const margin = 2;

/** First and last year of the line. The wide spans of the older codes do not stretch it. */
export function yearsOf(
  editions: readonly EditionAnswer[],
  installed: number | null,
  lag: number,
): readonly [from: number, to: number] {
  const dated = editions.filter(({ from, to }) => from === to).map(({ from }) => from);
  const built = installed === null ? [] : [installed - lag, installed];
  const last = Math.max(...dated, ...built, ...editions.map(({ to }) => to));
  return [Math.min(...dated, ...built, last) - margin, last + margin];
}

/**
 * The years from which an edition may have stood when the wall was built; null where the year is not on record or no
 * edition stood. Codes that were in force for long are followed back by the lag of the method only.
 */
export function windowOf(
  editions: readonly EditionAnswer[],
  installed: number | null,
  lag: number,
): readonly [from: number, to: number] | null {
  const stood = editions.filter(({ stoodThen }) => stoodThen);
  if (installed === null || stood.length === 0) return null;
  const starts = stood.map(({ from, to }) =>
    from === to ? from : Math.max(from, installed - lag),
  );
  return [Math.min(...starts, installed), installed];
}
