import { For } from 'solid-js';
import type { ReliabilityBin } from '../../analysis/findings/reliability.ts';
import { percent } from './figures.ts';
import { across, box, chanceTicks, upward } from './plot.ts';

const foot = box.height - box.bottom;

/** What was foretold beside what was seen, for walls of buildings that the model had not seen. */
export function ReliabilityPlot(props: { readonly bins: readonly ReliabilityBin[] }) {
  return (
    <figure class="reliability">
      <svg
        viewBox={`0 0 ${box.width} ${box.height}`}
        role="img"
        aria-label="Share seen against chance foretold, in five groups of walls; the table beside it has the figures"
      >
        <For each={chanceTicks}>{(tick) => <Ticks tick={tick} />}</For>
        <line class="diagonal" x1={across(0)} y1={upward(0)} x2={across(1)} y2={upward(1)} />
        <For each={props.bins}>{(bin) => <Bin bin={bin} />}</For>
        <text x={(across(0) + across(1)) / 2} y={box.height - 8} text-anchor="middle">
          chance foretold
        </text>
        <text
          transform={`translate(14 ${(upward(0) + upward(1)) / 2}) rotate(-90)`}
          text-anchor="middle"
        >
          share seen
        </text>
      </svg>
      <figcaption>
        <table>
          <caption>On the dashed line, what was foretold is what was seen.</caption>
          <thead>
            <tr>
              <th scope="col">Foretold, from</th>
              <th scope="col">to</th>
              <th scope="col">on average</th>
              <th scope="col">Seen</th>
              <th scope="col">Walls</th>
            </tr>
          </thead>
          <tbody>
            <For each={props.bins}>
              {({ from, to, predicted, observed, n }) => (
                <tr>
                  <td>{percent(from)}</td>
                  <td>{percent(to)}</td>
                  <td>{percent(predicted)}</td>
                  <td>{percent(observed)}</td>
                  <td>{n}</td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </figcaption>
    </figure>
  );
}

const Ticks = (props: { readonly tick: number }) => (
  <>
    <line
      class="grid"
      x1={across(0)}
      x2={across(1)}
      y1={upward(props.tick)}
      y2={upward(props.tick)}
    />
    <text class="soft" x={across(props.tick)} y={foot + 17} text-anchor="middle">
      {props.tick * 100}
    </text>
    <text class="soft" x={across(0) - 7} y={upward(props.tick) + 4} text-anchor="end">
      {props.tick * 100} %
    </text>
  </>
);

/** A group of walls: its range of chances as a whisker, its count beside the dot. */
const Bin = (props: { readonly bin: ReliabilityBin }) => (
  <>
    <line
      class="span"
      x1={across(props.bin.from)}
      x2={across(props.bin.to)}
      y1={upward(props.bin.observed)}
      y2={upward(props.bin.observed)}
    />
    <circle class="dot" cx={across(props.bin.predicted)} cy={upward(props.bin.observed)} r={4.5} />
    <text x={across(props.bin.predicted)} y={upward(props.bin.observed) - 9} text-anchor="middle">
      {props.bin.n}
    </text>
  </>
);
