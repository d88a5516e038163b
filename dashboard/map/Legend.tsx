import { createMemo, For, Show } from 'solid-js';
import { tiers } from '../../analysis/session-types.ts';
import { TierMark } from '../parts/TierMark.tsx';
import { type Band, bandsWithin, levels, type Units } from './rain/levels.ts';
import { rainShade } from './rain/ramp.ts';
import { sheetThemes } from './theme.ts';
import { tierMarks } from './tier-marks.ts';

interface LegendProps {
  /** Buildings of the portfolio by tier, in the order of `tiers`; none until they are counted. */
  readonly counts: readonly number[] | undefined;
  readonly shown: number;
  /** Buildings of the portfolio without a longitude and latitude. */
  readonly unplaced: number;
  /** Least and most rain of the sheet, mm. */
  readonly range: readonly [least: number, most: number] | undefined;
  readonly units: Units;
  readonly dark: boolean;
}

const unitWords: Readonly<Record<Units, string>> = {
  american: 'Rain, inches a year',
  metric: 'Rain, mm a year',
};
const perUnit: Readonly<Record<Units, number>> = { american: 25.4, metric: 1 };
const whole = (n: number) => Math.round(n).toLocaleString('en');

/** What the marks and the shades mean, in the margin under the map. */
export function Legend(props: LegendProps) {
  return (
    <div class="rain-legend">
      <ul class="rain-legend-tiers" aria-label="Tiers, with their buildings in the portfolio">
        <For each={tiers}>
          {(tier, t) => (
            <li>
              <TierMark tier={tier} /> {tier}{' '}
              <b>{props.counts ? whole(props.counts[t()]!) : '…'}</b>
            </li>
          )}
        </For>
      </ul>
      <Show when={props.range}>{(range) => <RainBands {...props} range={range()} />}</Show>
      <Show when={props.shown > 1}>
        <CellKey />
      </Show>
      <Show when={props.unplaced > 0}>
        <p>Not drawn: {whole(props.unplaced)} without a place on record.</p>
      </Show>
    </div>
  );
}

/** Fills shown in the legend: index points, and where so much of the bob's area ends in its box of 24. */
const fills = [
  { fill: 20, y: 15 },
  { fill: 50, y: 10 },
  { fill: 80, y: 5.2 },
] as const;

/** How a mark of several buildings is read. */
function CellKey() {
  const { outline, property } = tierMarks['First look'];
  return (
    <p class="rain-legend-cells">
      A larger mark stands for several buildings: how many, the foremost tier among them, and filled
      to their mean index,{' '}
      <For each={fills}>
        {({ fill, y }) => (
          <>
            <svg viewBox="0 0 24 24" aria-hidden="true">
              <clipPath id={`cell-key-${fill}`}>
                <rect x="0" y={y} width="24" height="24" />
              </clipPath>
              <path
                class="rain-legend-outline"
                d={outline}
                style={{ stroke: `var(${property})` }}
              />
              <path
                class="rain-legend-fill"
                d={outline}
                clip-path={`url(#cell-key-${fill})`}
                style={{ fill: `var(${property})` }}
              />
            </svg>{' '}
            {fill}
          </>
        )}
      </For>
    </p>
  );
}

function RainBands(props: {
  readonly range: readonly [number, number];
  readonly units: Units;
  readonly dark: boolean;
}) {
  const bands = createMemo(() => bandsWithin(props.units, props.range));
  const ramp = () => sheetThemes[props.dark ? 'dark' : 'light'].ramp;
  const figure = (mm: number) => whole(mm / perUnit[props.units]);
  const label = (band: Band) =>
    levels[props.units].some((level) => level.mm === band.from && level.inLegend)
      ? figure(band.from)
      : '';
  return (
    <div class="rain-legend-bands">
      <span>{unitWords[props.units]}</span>
      <ol aria-label={`Shades of ${unitWords[props.units].toLowerCase()}, darker is wetter`}>
        <For each={bands()}>
          {(band) => (
            <li
              classList={{ 'rain-legend-main': band.main }}
              title={`${figure(band.from)}${Number.isFinite(band.below) ? ` to ${figure(band.below)}` : ' and over'}`}
            >
              <span
                class="rain-legend-shade"
                style={{ background: rainShade(ramp(), band.shade) }}
              />
              <span class="rain-legend-figure">{label(band)}</span>
            </li>
          )}
        </For>
      </ol>
    </div>
  );
}
