import { createMemo, For, Show } from 'solid-js';
import { constantUnder } from '../../analysis/constants.ts';
import { stepOf } from '../../analysis/exposure/curve.ts';
import { Choice } from '../parts/Choice.tsx';
import { digits } from '../parts/format.ts';
import { useDesk } from '../state/desk.ts';
import { type CurveBox, type CurveShape, curveBoxes, curveShape } from './curve-shape.ts';
import type { ExposureProps } from './form.ts';
import { Heads, Sheet } from './Sheet.tsx';
import { currencyWord, sumWords } from './words.ts';

const tableIndexes = Array.from({ length: 21 }, (_, i) => i * 5);
const bounds = [
  ['tier_keep_watch', 'Keep watch'],
  ['tier_next_look', 'Next look'],
  ['tier_first_look', 'First look'],
] as const;

/** How much lies at or above any index, as scored and as the priors lean. */
export function Threshold(props: ExposureProps) {
  // Without any value on record the curve of values would be a line at 0.
  const valued = () => props.view.totals.currencies.length > 0;
  return (
    <Show
      when={valued()}
      fallback={<Curve {...props} form={{ ...props.form, curve: 'buildings' }} />}
    >
      <Curve {...props} choice />
    </Show>
  );
}

function Curve(props: ExposureProps & { readonly choice?: boolean }) {
  const { narrow, state } = useDesk();
  const box = () => curveBoxes[narrow() ? 'narrow' : 'wide'];
  const shape = createMemo(() => curveShape(props.view.curve, props.form.curve, box()));
  const at = (
    leaning: 'low' | 'mean' | 'high',
    of: 'value' | 'buildings',
    index = props.form.index,
  ) => props.view.curve[leaning][of][stepOf(index)]!;
  const words = (leaning: 'low' | 'mean' | 'high') =>
    sumWords(at(leaning, props.form.curve), props.form.curve, props.view.currency, state.units);
  const said = () =>
    `At index ${props.form.index} or above: ${words('mean')}${props.form.curve === 'buildings' ? ' buildings' : ` in ${digits(at('mean', 'buildings'), 0)} buildings`}; all priors leaning low ${words('low')}, leaning high ${words('high')}.`;
  return (
    <section aria-label="Threshold curve">
      <h3>At or above any index</h3>
      <Show when={props.choice}>
        <Choice
          legend="Show"
          words={[
            { value: 'value', word: `insured value, ${currencyWord(props.view.currency)}` },
            { value: 'buildings', word: 'buildings' },
          ]}
          value={props.form.curve}
          onChoose={(curve) => props.onForm({ curve })}
        />
      </Show>
      <figure class="threshold">
        <Plot {...props} shape={shape()} box={box()} said={said()} />
        <label class="threshold-index">
          <span>Index</span>
          <input
            type="range"
            min="0"
            max="100"
            step="0.5"
            value={props.form.index}
            aria-valuetext={said()}
            onInput={(event) => props.onForm({ index: event.currentTarget.valueAsNumber })}
          />
        </label>
        <figcaption>{said()}</figcaption>
      </figure>
      <details class="threshold-table">
        <summary>The curve as a table</summary>
        <Sheet
          says={`At or above each index, as scored and as the priors lean; values in ${currencyWord(props.view.currency)}.`}
          class="exposure-curve"
        >
          <Heads
            words={['Index, at or above']}
            figures={[
              'Value, leaning low',
              'as scored',
              'leaning high',
              'Buildings, leaning low',
              'as scored',
              'leaning high',
            ]}
          />
          <tbody>
            <For each={tableIndexes}>
              {(index) => (
                <tr>
                  <th scope="row">{index}</th>
                  <For each={['value', 'buildings'] as const}>
                    {(of) => (
                      <For each={['low', 'mean', 'high'] as const}>
                        {(leaning) => <td>{digits(at(leaning, of, index), 0)}</td>}
                      </For>
                    )}
                  </For>
                </tr>
              )}
            </For>
          </tbody>
        </Sheet>
      </details>
      <p class="soft">
        Read at any index with the pointer or the slider. What was not scored is in none of it. The
        band reaches from all priors leaning low to all leaning high.
      </p>
    </section>
  );
}

function Plot(
  props: ExposureProps & {
    readonly shape: CurveShape;
    readonly box: CurveBox;
    readonly said: string;
  },
) {
  const { session } = useDesk();
  const foot = () => props.box.height - props.box.bottom;
  const end = () => props.box.width - props.box.right;
  const read = (event: PointerEvent & { currentTarget: SVGSVGElement }) => {
    const { left, width } = event.currentTarget.getBoundingClientRect();
    props.onForm({
      index: props.shape.indexAt(((event.clientX - left) / width) * props.box.width),
    });
  };
  const boundAt = (name: string) => constantUnder(session.changes(), name);
  const mark = () =>
    props.shape.upward(props.view.curve.mean[props.form.curve][stepOf(props.form.index)]!);
  return (
    <svg
      viewBox={`0 0 ${props.box.width} ${props.box.height}`}
      role="img"
      aria-label={`${props.form.curve === 'value' ? 'Insured value' : 'Buildings'} at or above each index. ${props.said}`}
      onPointerDown={read}
      onPointerMove={read}
    >
      <For each={props.shape.y}>
        {({ at, word }) => (
          <>
            <path class="grid-line" d={`M${props.box.left} ${at}H${end()}`} />
            <text x={props.box.left - 7} y={at + 4} text-anchor="end">
              {word}
            </text>
          </>
        )}
      </For>
      <For each={props.shape.x}>
        {({ at, word }) => (
          <text x={at} y={foot() + 16} text-anchor="middle">
            {word}
          </text>
        )}
      </For>
      <path class="band" d={props.shape.band} />
      <For each={bounds}>
        {([name, tier], i) => (
          <>
            <path
              class="bound"
              d={`M${props.shape.across(boundAt(name))} ${props.box.top}V${foot()}`}
            />
            <text
              class="bound-word"
              x={props.shape.across(boundAt(name)) + 4}
              y={props.box.top + 10 + 15 * i()}
            >
              {tier}
            </text>
          </>
        )}
      </For>
      <path class="mean" d={props.shape.mean} />
      <path class="axis-line" d={`M${props.box.left} ${props.box.top}V${foot()}H${end()}`} />
      <path
        class="pencil"
        d={`M${props.shape.across(props.form.index)} ${props.box.top}V${foot()}`}
      />
      <circle class="pencil-dot" cx={props.shape.across(props.form.index)} cy={mark()} r="4.5" />
      <text x={end()} y={foot() + 34} text-anchor="end">
        index
      </text>
    </svg>
  );
}
