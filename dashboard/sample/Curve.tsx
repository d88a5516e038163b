import { createMemo, For, Show } from 'solid-js';
import { curveBox, curveShape, reachOf, tallestOf } from './curve-shape.ts';
import type { SampleForm } from './form.ts';
import { curveOf, type SizeAnswer } from './size-answer.ts';

const axisWords = {
  proportion: 'margin, ± percentage points',
  discovery: 'chance of seeing at least one, %',
} as const;

const foot = curveBox.height - curveBox.bottom;
const end = curveBox.width - curveBox.right;

/** Openings against what they buy, with the chosen number and what the budget reaches. */
export function Curve(props: {
  readonly form: SampleForm;
  readonly population: number;
  readonly answer: SizeAnswer;
  readonly budget: number | null;
}) {
  const shape = createMemo(() => {
    const { form, population, answer, budget } = props;
    const points = curveOf(form, population, reachOf(population, answer.n, budget));
    const here = points.find(({ n }) => n >= answer.n) ?? null;
    const chosen = here && { n: answer.n, buys: here.buys };
    return curveShape(points, { chosen, budget, tallest: tallestOf[form.aim] });
  });
  return (
    <figure class="size-curve">
      <svg
        viewBox={`0 0 ${curveBox.width} ${curveBox.height}`}
        role="img"
        aria-label={`Openings against the ${axisWords[props.form.aim]}. ${props.answer.words}`}
      >
        <For each={shape().y}>
          {({ at, word }) => (
            <>
              <path class="grid-line" d={`M${curveBox.left} ${at}H${end}`} />
              <text x={curveBox.left - 7} y={at + 4} text-anchor="end">
                {word}
              </text>
            </>
          )}
        </For>
        <For each={shape().x}>
          {({ at, word }) => (
            <text x={at} y={foot + 16} text-anchor="middle">
              {word}
            </text>
          )}
        </For>
        <path class="axis-line" d={`M${curveBox.left} ${curveBox.top}V${foot}H${end}`} />
        <text x={end} y={foot + 34} text-anchor="end">
          openings
        </text>
        <Show when={shape().budget}>
          {(x) => (
            <>
              <path class="budget-line" d={`M${x()} ${curveBox.top}V${foot}`} />
              <text
                x={x() + (x() > end - 110 ? -5 : 5)}
                y={curveBox.top + 10}
                text-anchor={x() > end - 110 ? 'end' : 'start'}
              >
                budget buys {props.budget}
              </text>
            </>
          )}
        </Show>
        <path class="curve-line" d={shape().path} />
        <Show when={shape().chosen}>
          {(at) => (
            <>
              <path class="chosen-line" d={`M${at().x} ${foot}V${at().y}H${curveBox.left}`} />
              <circle class="chosen-mark" cx={at().x} cy={at().y} r="5" />
              <text class="chosen-word" x={at().x + 9} y={at().y + (at().y < 60 ? 18 : -8)}>
                {props.answer.n}
              </text>
            </>
          )}
        </Show>
      </svg>
      <figcaption class="soft">Vertical: {axisWords[props.form.aim]}.</figcaption>
    </figure>
  );
}
