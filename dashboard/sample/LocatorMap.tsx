import { Show } from 'solid-js';
import { counted } from '../parts/format.ts';
import { useDesk } from '../state/desk.ts';
import { type Locator, locatorBox } from './locator.ts';

const { width, height, margin } = locatorBox;

/** The building among the nearest sampled ones, north up, with a scale bar. */
export function LocatorMap(props: { readonly locator: Locator | null }) {
  const { state } = useDesk();
  const unit = () => (state.units === 'metric' ? 'km' : 'mi');
  /** One path for all dots: strokes of no length with round ends. */
  const dots = (locator: Locator) =>
    locator.dots.map(({ x, y }) => `M${x.toFixed(1)} ${y.toFixed(1)}h0`).join('');
  return (
    <figure class="locator">
      <Show when={props.locator} fallback={<figcaption>No place on record</figcaption>}>
        {(locator) => (
          <>
            <svg
              viewBox={`0 0 ${width} ${height}`}
              role="img"
              aria-label="The building among the nearest buildings of the plan"
            >
              <path class="frame" d={`M.5 .5H${width - 0.5}V${height - 0.5}H.5Z`} />
              <path class="dots" d={dots(locator())} />
              <Show when={locator().dots[0]}>
                {(at) => <circle class="here-ring" cx={at().x} cy={at().y} r="7" />}
              </Show>
              <path
                class="bar"
                d={`M${margin} ${height - 10}v4h${locator().bar.width.toFixed(2)}v-4`}
              />
              <text x={margin + locator().bar.width + 5} y={height - 6}>
                {locator().bar.length.toLocaleString('en-US', { maximumSignificantDigits: 3 })}{' '}
                {unit()}
              </text>
            </svg>
            <figcaption>
              {locator().dots.length === 1
                ? 'The only building of the plan'
                : `Ringed; nearest ${counted(locator().dots.length - 1, 'other')} of the plan; north is up`}
            </figcaption>
          </>
        )}
      </Show>
    </figure>
  );
}
