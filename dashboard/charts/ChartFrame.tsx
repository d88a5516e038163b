import { type JSX, Show } from 'solid-js';

/** One chart: its title, the drawing, and its reading as a sentence. */
export function ChartFrame(props: {
  readonly title: string;
  readonly chosen: boolean;
  /** Buildings that the other filters leave. */
  readonly left: number;
  readonly reading: string;
  readonly onClear: () => void;
  readonly children: JSX.Element;
}) {
  return (
    <figure class="linked-chart">
      <div class="chart-head">
        <h3>{props.title}</h3>
        <Show when={props.chosen}>
          <button type="button" class="plain-button" onClick={() => props.onClear()}>
            Clear<span class="unseen">: {props.title}</span>
          </button>
        </Show>
      </div>
      <div class="chart-body">
        {props.children}
        <Show when={props.left === 0}>
          <p class="chart-empty">No building here under the other filters.</p>
        </Show>
      </div>
      <figcaption title={props.reading}>{props.left > 0 && props.reading}</figcaption>
    </figure>
  );
}
