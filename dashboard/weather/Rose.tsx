import { arc, lineRadial, max } from 'd3';
import { For, type JSX } from 'solid-js';
import type { DrivingRain } from '../../analysis/weather/record.ts';
import { figureOf, joined } from '../parts/format.ts';
import { useDesk } from '../state/desk.ts';
import { WallIndexForm } from './WallIndexForm.tsx';
import './rose.css';

const radius = 130;
const step = 10;
const turn = (degrees: number): number => (degrees * Math.PI) / 180;
const compass = [
  ['N', 0],
  ['E', 90],
  ['S', 180],
  ['W', 270],
] as const;

/** A driving-rain rose: where the rain-driving wind comes from, and how much of it each direction of wall meets. */
export function Rose(props: { readonly found: DrivingRain }) {
  const { state } = useDesk();
  const rose = () => props.found.rose;
  /** Two decimals beside the published digits; the standards speak in m/s, so the American figure stands beside it. */
  const speed = (metres: number) =>
    state.units === 'metric'
      ? `${metres.toFixed(2)} m/s`
      : `${joined(figureOf(metres, 'speed', 'american'))} (${metres.toFixed(2)} m/s)`;
  return (
    <section class="weather" aria-label="Weather record">
      <h3>Driving rain of {props.found.file}</h3>
      <p>
        U {speed(props.found.windInRain)} during rain; {speed(props.found.meanWind)} over all hours.{' '}
        {indexWords(props.found)}
      </p>
      <div class="roses">
        <Petals found={props.found} />
        <Curve title={rose().labels.kappa} values={rose().kappa} unit="" />
        <Curve title={rose().labels.airfieldIndex} values={rose().airfieldIndex} unit=" mm" />
      </div>
      <ul class="soft">
        <For each={[...props.found.notes, ...props.found.indexNotes, ...props.found.isoLimits]}>
          {(note) => <li>{note}</li>}
        </For>
      </ul>
      <WallIndexForm found={props.found} />
      <details>
        <summary>Values every 10°</summary>
        <section class="reference-scroll" tabindex={0} aria-label="Driving rain every 10°">
          <table>
            <thead>
              <tr>
                <th scope="col">Wall faces</th>
                <th scope="col" class="is-number">
                  κ
                </th>
                <th scope="col" class="is-number">
                  Airfield index, mm
                </th>
                <th scope="col" class="is-number">
                  Share of the wind from there
                </th>
              </tr>
            </thead>
            <tbody>
              <For each={rose().sectors}>
                {({ directionDeg, share }, i) => (
                  <tr>
                    <td>{directionDeg}°</td>
                    <td class="is-number">{(rose().kappa[i()] ?? 0).toFixed(3)}</td>
                    <td class="is-number">{(rose().airfieldIndex[i()] ?? 0).toFixed(1)}</td>
                    <td class="is-number">{(share * 100).toFixed(1)} %</td>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
        </section>
      </details>
    </section>
  );
}

const indexWords = ({ index }: DrivingRain): string =>
  index.m2PerS === null
    ? 'No driving-rain index: there is no wind for most hours.'
    : `Driving-rain index ${index.m2PerS.toFixed(2)} m²/s${index.class ? `, ${index.class}` : ''}.`;

function Petals(props: { readonly found: DrivingRain }) {
  const sectors = () => props.found.rose.sectors;
  const most = () => max(sectors(), ({ share }) => share) || 1;
  const petal = (directionDeg: number, share: number): string =>
    arc()({
      innerRadius: 0,
      // Area, not length, shows the share.
      outerRadius: radius * Math.sqrt(share / most()),
      startAngle: turn(directionDeg - step / 2 + 0.6),
      endAngle: turn(directionDeg + step / 2 - 0.6),
    }) ?? '';
  return (
    <Figure
      title={props.found.rose.labels.share}
      scale={`outer ring ${(most() * 100).toFixed(0)} %`}
    >
      <For each={sectors()}>
        {({ directionDeg, share }) => <path class="petal" d={petal(directionDeg, share)} />}
      </For>
    </Figure>
  );
}

function Curve(props: {
  readonly title: string;
  readonly values: Float64Array;
  readonly unit: string;
}) {
  const most = () => max(props.values) || 1;
  const path = (): string => {
    const points = Array.from(props.values, (value, i): [number, number] => [
      turn(i * step),
      (radius * value) / most(),
    ]);
    return lineRadial()([...points, points[0]!]) ?? '';
  };
  return (
    <Figure title={props.title} scale={`outer ring ${Number(most().toPrecision(3))}${props.unit}`}>
      <path class="curve" d={path()} />
    </Figure>
  );
}

function Figure(props: {
  readonly title: string;
  readonly scale: string;
  readonly children: JSX.Element;
}) {
  return (
    <figure>
      <svg viewBox="-160 -160 320 320" role="img" aria-label={props.title}>
        <circle class="ring" r={radius} />
        <circle class="ring" r={radius / 2} />
        {props.children}
        <For each={compass}>
          {([name, degrees]) => (
            <text
              x={(radius + 16) * Math.sin(turn(degrees))}
              y={5 - (radius + 16) * Math.cos(turn(degrees))}
            >
              {name}
            </text>
          )}
        </For>
      </svg>
      <figcaption>
        {props.title}; {props.scale}.
      </figcaption>
    </figure>
  );
}
