import { For, Match, Show, Switch } from 'solid-js';
import type { ViewsAnswer } from '../../analysis/sift/tallies.ts';
import { counted } from '../parts/format.ts';
import type { Units } from '../parts/quantity.ts';
import type { Filters } from '../state/page-state.ts';
import { Bars } from './Bars.tsx';
import { Density } from './Density.tsx';
import { Histogram } from './Histogram.tsx';
import { Matrix } from './Matrix.tsx';
import type { Conditions } from './types.ts';
import './charts.css';

const titles = ['Index', 'Wetting against drainage lacking', 'Material by era', 'Tier by region'];

/** Four linked views in a row: choosing in one filters the others, and everything else on the page. */
export function Charts(props: {
  /** Undefined until the first counts are here; an older answer stays while a newer one is on its way. */
  readonly answer: ViewsAnswer | undefined;
  readonly pending: boolean;
  /** Why there are no counts, in a sentence. */
  readonly trouble?: string | undefined;
  readonly filters: Filters;
  readonly units: Units;
  /** While a brush is drawn, once a frame at most; null: given up, what was there stands again. */
  readonly onPreview: (conditions: Conditions | null) => void;
  /** A choice is made: one step of undo. */
  readonly onCommit: (conditions: Conditions) => void;
}) {
  const asked = {
    get filters() {
      return props.filters;
    },
    get units() {
      return props.units;
    },
    onPreview: (conditions: Conditions | null) => props.onPreview(conditions),
    onCommit: (conditions: Conditions) => props.onCommit(conditions),
  };
  return (
    <section class="charts" aria-label="Linked views" aria-busy={props.pending}>
      <Switch fallback={<Waiting />}>
        <Match when={props.trouble}>
          {(words) => (
            <p class="panel-state" role="alert">
              The buildings could not be counted for these views: {words()}
            </p>
          )}
        </Match>
        <Match when={props.answer?.n === 0}>
          <p class="panel-state">No building here.</p>
        </Match>
        <Match when={props.answer}>
          {(answer) => (
            <>
              <div class="chart-row">
                <Histogram answer={answer()} {...asked} />
                <Density answer={answer()} {...asked} />
                <Matrix answer={answer()} {...asked} />
                <Bars answer={answer()} {...asked} />
              </div>
              <Key answer={answer()} />
            </>
          )}
        </Match>
      </Switch>
    </section>
  );
}

/** The shape of the row before there are counts, so that nothing jumps when they come. */
const Waiting = () => (
  <div class="chart-row" data-waiting>
    <For each={titles}>
      {(title) => (
        <figure class="linked-chart">
          <div class="chart-head">
            <h3>{title}</h3>
          </div>
          <div class="chart-body" />
          <figcaption>Counting …</figcaption>
        </figure>
      )}
    </For>
  </div>
);

/** What outlines and strokes mean, once for all four; the tiers have their key in the buttons that filter by them. */
function Key(props: { readonly answer: ViewsAnswer }) {
  const points = () => props.answer.density.points;
  return (
    <p class="charts-key">
      <span>
        <i class="key-outline" /> all {counted(props.answer.n, 'building')}, in proportion
      </span>
      <span>
        <i class="key-pressing" /> part of a cell in First or Next look
      </span>
      <Show when={!points()}>
        <span>Darker: more buildings</span>
      </Show>
    </p>
  );
}
