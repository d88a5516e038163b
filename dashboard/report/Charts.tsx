import { max, scaleLinear, sum } from 'd3';
import { For, Show } from 'solid-js';
import { type Tier, tiers } from '../../analysis/session-types.ts';
import { digits } from '../parts/format.ts';
import { TierMark } from '../parts/TierMark.tsx';
import { plainWord } from '../parts/words.ts';
import { binWidth, piecesOf, type Tallies } from './tallies.ts';

const fillClass = (tier: number): string => `fill-${tier}`;

/** The shades of the bars: they differ in lightness, the tier's mark stands beside each. */
function Key(props: { readonly tiers: readonly Tier[] }) {
  return (
    <p class="chart-key">
      <For each={props.tiers}>
        {(tier) => (
          <span class="key">
            <svg viewBox="0 0 12 12" aria-hidden="true">
              <rect class={fillClass(tiers.indexOf(tier))} x="1" y="1" width="10" height="10" />
            </svg>
            <TierMark tier={tier} /> {tier}
          </span>
        )}
      </For>
    </p>
  );
}

const plot = { width: 680, height: 190, left: 44, right: 8, top: 10, bottom: 30 };

/** How many buildings have which index, by tier. */
export function IndexHistogram(props: { readonly tallies: Tallies }) {
  const most = () => max(props.tallies.bins, (bin) => sum(bin)) || 1;
  const x = scaleLinear([0, 100], [plot.left, plot.width - plot.right]);
  const y = () => scaleLinear([0, most()], [plot.height - plot.bottom, plot.top]).nice(4);
  const wide = x(binWidth) - x(0) - 1;
  return (
    <figure class="keep">
      <h2>Buildings by index</h2>
      <svg
        class="chart"
        viewBox={`0 0 ${plot.width} ${plot.height}`}
        role="img"
        aria-label="Histogram of the index by tier"
      >
        <For each={y().ticks(4).filter(Number.isInteger)}>
          {(n) => (
            <>
              <line
                class="grid"
                x1={plot.left}
                x2={plot.width - plot.right}
                y1={y()(n)}
                y2={y()(n)}
              />
              <text x={plot.left - 5} y={y()(n) + 3} text-anchor="end">
                {digits(n, 0)}
              </text>
            </>
          )}
        </For>
        <For each={props.tallies.bins}>
          {(bin, i) => (
            <For each={piecesOf(bin)}>
              {({ tier, from, to }) => (
                <rect
                  class={fillClass(tier)}
                  x={x(i() * binWidth) + 0.5}
                  width={wide}
                  y={y()(to)}
                  height={y()(from) - y()(to)}
                />
              )}
            </For>
          )}
        </For>
        <For each={x.ticks(10)}>
          {(tick) => (
            <text x={x(tick)} y={plot.height - plot.bottom + 13} text-anchor="middle">
              {tick}
            </text>
          )}
        </For>
        <text x={(plot.left + plot.width) / 2} y={plot.height - 4} text-anchor="middle">
          index, 0–100; the count of buildings upwards
        </text>
      </svg>
      <Key tiers={tiers.slice(0, 4)} />
      <Show when={(props.tallies.tier[4] ?? 0) > 0}>
        <p>{digits(props.tallies.tier[4] ?? 0, 0)} not scored have no index and no bar.</p>
      </Show>
    </figure>
  );
}

const bars = { width: 680, row: 17, left: 110, right: 120 };

/** Tiers by region: one bar each, the most numerous region first. */
export function RegionBars(props: { readonly tallies: Tallies }) {
  const groups = () => props.tallies.regions;
  const x = () =>
    scaleLinear(
      [0, max(groups(), ({ counts }) => sum(counts)) || 1],
      [bars.left, bars.width - bars.right],
    );
  return (
    <figure class="keep">
      <h2>Tiers by region</h2>
      <svg
        class="chart"
        viewBox={`0 0 ${bars.width} ${groups().length * bars.row + 4}`}
        role="img"
        aria-label="Buildings of each region by tier"
      >
        <For each={groups()}>
          {({ label, counts }, i) => (
            <g transform={`translate(0 ${i() * bars.row})`}>
              <text x={bars.left - 6} y={12} text-anchor="end">
                {label}
              </text>
              <For each={piecesOf(counts)}>
                {({ tier, from, to }) => (
                  <rect
                    class={fillClass(tier)}
                    x={x()(from)}
                    y={2}
                    width={x()(to) - x()(from)}
                    height={bars.row - 4}
                  />
                )}
              </For>
              <text x={x()(sum(counts)) + 5} y={12}>
                {digits(sum(counts), 0)}; First look {digits(counts[0] ?? 0, 0)}
              </text>
            </g>
          )}
        </For>
      </svg>
      <Key tiers={tiers} />
    </figure>
  );
}

/** How many buildings have which cladding from which years, and how many of them to look at first. */
export function EraTable(props: { readonly tallies: Tallies }) {
  return (
    <section class="keep">
      <h2>Cladding by the years it was put up</h2>
      <table class="plain numbers">
        <thead>
          <tr>
            <th scope="col">Wall that sets the index</th>
            <For each={props.tallies.eras}>{(era) => <th scope="col">{era}</th>}</For>
          </tr>
        </thead>
        <tbody>
          <For each={props.tallies.materials}>
            {({ label, cells }) => (
              <tr>
                <th scope="row">{plainWord(label)}</th>
                <For each={cells}>
                  {({ all, first }) => (
                    <td>
                      <Show when={all > 0} fallback="–">
                        <b>{digits(first, 0)}</b> / {digits(all, 0)}
                      </Show>
                    </td>
                  )}
                </For>
              </tr>
            )}
          </For>
        </tbody>
      </table>
      <p>First look / all buildings shown.</p>
    </section>
  );
}
