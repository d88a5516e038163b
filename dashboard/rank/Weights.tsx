import { createMemo, createSignal, For, type JSX, Show } from 'solid-js';
import { constantUnder } from '../../analysis/constants.ts';
import type { Weights as Tried } from '../../analysis/session-types.ts';
import { Fold } from '../parts/Fold.tsx';
import { digits } from '../parts/format.ts';
import { withConstant } from '../settings/changes.ts';
import { useDesk } from '../state/desk.ts';
import './weights.css';

/** The weights of the index: their names in words, and the constants behind them. */
const sliders = [
  { of: 'load', constant: 'weight_load', symbol: 'α', word: 'Rain on the wall' },
  { of: 'deficiency', constant: 'weight_deficiency', symbol: 'β', word: 'Missing drainage' },
  {
    of: 'susceptibility',
    constant: 'weight_susceptibility',
    symbol: 'γ',
    word: 'Sheathing behind',
  },
] as const satisfies readonly { of: keyof Tried; constant: string; symbol: string; word: string }[];

/** How much each factor of the index counts. The ranking follows while a slider moves; the ends follow when it rests. */
export function Weights() {
  const { session } = useDesk();
  const scored = createMemo((): Tried => {
    const of = (name: string) => constantUnder(session.changes(), name);
    return {
      load: of('weight_load'),
      deficiency: of('weight_deficiency'),
      susceptibility: of('weight_susceptibility'),
    };
  });
  const [tried, setTried] = createSignal<Tried | null>(null);
  const [refused, setRefused] = createSignal(false);
  const weights = () => tried() ?? scored();
  const allZero = (one: Tried) => sliders.every(({ of }) => one[of] === 0);
  const move = (of: keyof Tried, value: number) => {
    const next = { ...weights(), [of]: value };
    setTried(next);
    setRefused(false);
    if (!allZero(next)) void session.lean(next);
  };
  const settle = (wanted: Tried) => {
    setTried(null);
    setRefused(allZero(wanted));
    // The sliders go back, and so must what was ranked on the way to 0.
    if (allZero(wanted)) return void session.rescore(session.changes());
    const changes = sliders.reduce(
      (before, { of, constant }) => withConstant(before, constant, wanted[of]),
      session.changes(),
    );
    void session.rescore(changes);
  };
  const shipped = () => sliders.every(({ of }) => weights()[of] === 1);
  let body: HTMLDivElement | undefined;
  const [place, setPlace] = createSignal<JSX.CSSProperties>({});
  // What stands above grows by a line when weights differ from those shipped: the sliders stay under the hand.
  const hold = () => {
    const line = body?.parentElement?.getBoundingClientRect();
    if (!line) return;
    const right = document.documentElement.clientWidth - line.right;
    setPlace({ '--hold-top': `${line.bottom + 6}px`, '--hold-right': `${right}px` });
  };
  return (
    <Fold
      class="pick-list weights"
      late
      onOpen={() => {
        hold();
        void session.readyToLean();
      }}
      summary={
        <>
          Weights
          <Show when={!shipped()}>
            : {sliders.map(({ of }) => digits(weights()[of], 1)).join(', ')}
          </Show>
        </>
      }
    >
      <div class="weights-body fold-sheet" ref={body} style={place()}>
        <p class="soft">
          Index = 100 · w<sup>α</sup> · d<sup>β</sup> · s<sup>γ</sup>. The exponents are judgement:
          0 leaves a factor out, 1 is as shipped, 3 makes it count most.
        </p>
        <For each={sliders}>
          {({ of, symbol, word }) => (
            <label>
              <span>
                {word} <i>{symbol}</i>
              </span>
              <input
                type="range"
                min="0"
                max="3"
                step="0.1"
                value={String(weights()[of])}
                onInput={(event) => move(of, event.currentTarget.valueAsNumber)}
                onChange={() => settle(weights())}
              />
              <output>{digits(weights()[of], 1)}</output>
            </label>
          )}
        </For>
        <Show when={allZero(weights())}>
          <p role="alert">All three are 0, so every wall would be alike: raise one.</p>
        </Show>
        <Show when={refused()}>
          <p role="alert">
            All three at 0 would make every wall alike: the weights are as they were.
          </p>
        </Show>
        <p class="weights-foot">
          <button
            type="button"
            class="plain-button"
            disabled={shipped()}
            onClick={() => settle({ load: 1, deficiency: 1, susceptibility: 1 })}
          >
            As shipped
          </button>
          <span class="soft" role="status">
            {session.rescoring() ? 'Working out low and high …' : ''}
          </span>
        </p>
      </div>
    </Fold>
  );
}
