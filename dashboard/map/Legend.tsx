import { createMemo, For, Show } from 'solid-js';
import { type Frame, tiers } from '../../analysis/session-types.ts';
import { TierMark } from '../parts/TierMark.tsx';
import { type Band, bandsWithin, levels, type Units } from './rain/levels.ts';
import { rainShade } from './rain/ramp.ts';
import { sheetThemes } from './theme.ts';
import { drawnEach } from './tiles/zooms.ts';

interface LegendProps {
  readonly counts: Frame['counts']['tier'];
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
          {(tier) => (
            <li>
              <TierMark tier={tier} /> {tier} <b>{whole(props.counts[tier])}</b>
            </li>
          )}
        </For>
      </ul>
      <Show when={props.range}>{(range) => <RainBands {...props} range={range()} />}</Show>
      <Show when={props.shown > drawnEach}>
        <p>A larger mark stands for several buildings and shows the foremost tier among them.</p>
      </Show>
      <Show when={props.unplaced > 0}>
        <p>Not drawn: {whole(props.unplaced)} without a place on record.</p>
      </Show>
    </div>
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
