import type { Answer, Selected } from './answer.ts';

/** An answer with the weight it carries: the units of the frame that it speaks for. */
export interface Weighted extends Answer {
  readonly weight: number;
  /** Chance of being selected *and* answering. */
  readonly chance: number;
}

/** The answers of one kind of units of a stratum: variance is taken within it. */
export interface ResponseClass extends Selected {
  readonly members: readonly Weighted[];
}

/** Whether nothing was left to chance: all its units were opened. */
export const isKnown = ({ members, size }: ResponseClass): boolean =>
  new Set(members.map(({ unit }) => unit)).size >= size;

const sum = (values: readonly number[]): number => values.reduce((total, x) => total + x, 0);

/**
 * Units that answered stand for those of their class that did not (so an unanswered opening is taken to be like the
 * answered ones of its stratum), and their weights are scaled to the units of the frame.
 */
function weigh(selected: Selected, answers: readonly Answer[]): ResponseClass {
  const expansions = answers.map(({ probability }) => 1 / probability);
  const answered = sum(expansions);
  const members = answers.map((answer, i) => ({
    ...answer,
    weight: (selected.size * expansions[i]!) / answered,
    chance: Math.min(1, (answer.probability * answered) / selected.expansion),
  }));
  return { ...selected, members };
}

/** The answers by stratum and certainty, weighted; classes without any answer have no members. */
export const responseClasses = (
  selected: readonly Selected[],
  answers: readonly Answer[],
): ResponseClass[] =>
  selected.map((kind) =>
    weigh(
      kind,
      answers.filter(
        ({ stratum, certainty }) => stratum === kind.stratum && certainty === kind.certainty,
      ),
    ),
  );
