import { Show } from 'solid-js';
import { useDesk } from '../state/desk.ts';
import { type Dot, type Locator, locatorBox } from './locator.ts';

const { width, height, margin } = locatorBox;

/** The building among the sampled ones, north up, with a scale bar. */
export function LocatorMap(props: { readonly locator: Locator | null; readonly at: Dot | null }) {
  const { state } = useDesk();
  const unit = () => (state.units === 'metric' ? 'km' : 'mi');
  /** One path for all dots: strokes of no length with round ends. */
  const dots = (locator: Locator) =>
    locator.dots.map(({ x, y }) => `M${x.toFixed(1)} ${y.toFixed(1)}h0`).join('');
  return (
    <figure class="locator">
      <Show when={props.locator} fallback={<p>No building of the plan has a place on record.</p>}>
        {(locator) => (
          <svg
            viewBox={`0 0 ${width} ${height}`}
            role="img"
            aria-label="The building among the sampled buildings"
          >
            <path class="frame" d={`M.5 .5H${width - 0.5}V${height - 0.5}H.5Z`} />
            <path class="dots" d={dots(locator())} />
            <Show when={props.at}>
              {(at) => (
                <>
                  <circle class="here-ring" cx={at().x} cy={at().y} r="7" />
                  <circle class="here" cx={at().x} cy={at().y} r="2.5" />
                </>
              )}
            </Show>
            <path
              class="bar"
              d={`M${margin} ${height - 10}v4h${locator().bar.width.toFixed(2)}v-4`}
            />
            <text x={margin + locator().bar.width + 5} y={height - 6}>
              {locator().bar.length.toLocaleString('en-US')} {unit()}
            </text>
          </svg>
        )}
      </Show>
      <figcaption>
        {props.at ? 'This building among those of the plan; north is up' : 'No place on record'}
      </figcaption>
    </figure>
  );
}
