/** How sure a guess is, in a word. The steps are judgement. */
const steps: readonly (readonly [from: number, word: string])[] = [
  [0.95, 'sure'],
  [0.7, 'likely'],
  [0.4, 'perhaps'],
  [0, 'a guess'],
];

export const sureWord = (confidence: number): string =>
  steps.find(([from]) => confidence >= from)?.[1] ?? 'a guess';
