import { rainConstant } from '../rain/constants.ts';
import type { LeftOut } from './leave-out.ts';
import { lnGrid, type Network } from './network.ts';

/** How well one kind of estimate foretold the stations that were left out. */
export interface CheckRow {
  readonly estimate: 'grid alone' | 'stations alone' | 'adjusted';
  /** Each station from all others, or from those outside its cell. The grid alone is compared at the same stations. */
  readonly leftOut: 'one by one' | 'by cells';
  /** Whether normals, and with them all that is made of them, were brought to the later period first. */
  readonly shifted: boolean;
  /** Stations that could be foretold. */
  readonly n: number;
  /** Root mean square and mean of estimate − station, inches a year. */
  readonly rmseIn: number;
  readonly biasIn: number;
  /** Pearson's r of estimates and stations. */
  readonly correlation: number;
  /** Share of stations on the same side of the rain threshold as their estimate. */
  readonly agreement: number;
  /** Root mean square error of ln rain. */
  readonly rmseLn: number;
  /** Share of stations within the 80 % interval; NaN for estimates that carry none here. */
  readonly within: number;
}

const mmPerInch = 25.4;

const mean = (values: readonly number[]): number =>
  values.reduce((sum, x) => sum + x, 0) / values.length;

const published = (x: number): number => Math.round(x * 1e4) / 1e4;

function pearson(a: readonly number[], b: readonly number[]): number {
  const [ma, mb] = [mean(a), mean(b)];
  const moment = (u: readonly number[], mu: number, v: readonly number[], mv: number) =>
    mean(u.map((x, i) => (x - mu) * (v[i]! - mv)));
  return moment(a, ma, b, mb) / Math.sqrt(moment(a, ma, a, ma) * moment(b, mb, b, mb));
}

/** Pairs of ln station and ln estimate. */
interface Pairs {
  readonly station: readonly number[];
  readonly estimate: readonly number[];
}

type Figures = Omit<CheckRow, 'estimate' | 'leftOut' | 'shifted' | 'within'>;

/** The figures of a row; the threshold is in mm. */
export function figures({ station, estimate }: Pairs, thresholdMm: number): Figures {
  const inches = (ln: number) => Math.exp(ln) / mmPerInch;
  const truth = station.map(inches);
  const foretold = estimate.map(inches);
  const wrong = foretold.map((x, i) => x - truth[i]!);
  // To the published step: 20.0 in, by way of its logarithm, is not over 20 in.
  const over = (x: number) => Math.round(x * mmPerInch * 1e4) / 1e4 > thresholdMm;
  return {
    n: truth.length,
    rmseIn: published(Math.sqrt(mean(wrong.map((e) => e * e)))),
    biasIn: published(mean(wrong)),
    correlation: published(pearson(truth, foretold)),
    agreement: published(mean(truth.map((x, i) => Number(over(x) === over(foretold[i]!))))),
    rmseLn: published(Math.sqrt(mean(station.map((x, i) => (estimate[i]! - x) ** 2)))),
  };
}

const z = rainConstant('interval_z');

/** λ puts one station on the very end of its interval; last bits are not to decide on which side. */
const onTheEnd = 1 + 1e-9;

/** Share of errors within the 80 % interval of a prediction whose s is λ √(sill · variance). */
function withinInterval({ error, variance, sill }: LeftOut, lambda: number): number {
  const judged = [...error.keys()].filter((k) => !Number.isNaN(error[k]!));
  const inside = judged.filter(
    (k) => Math.abs(error[k]!) <= onTheEnd * z * lambda * Math.sqrt(sill * variance[k]!),
  );
  return published(inside.length / judged.length);
}

/** What was left out, and how, of both kinds of estimate. */
export interface Trial {
  readonly leftOut: CheckRow['leftOut'];
  readonly adjusted: LeftOut;
  readonly alone: LeftOut;
}

/** ln station and ln estimate from the errors; `move` takes the period shift off again where it is to be off. */
function fromErrors(
  { adjusted: { z: values }, level }: Network,
  { ids, error }: LeftOut,
  move: number,
): Pairs {
  const judged = [...ids.keys()].filter((k) => !Number.isNaN(error[k]!));
  const station = judged.map((k) => values[ids[k]!]! + level + move);
  return { station, estimate: station.map((x, at) => x - error[judged[at]!]!) };
}

function fromGrid({ stations }: Network, { ids, error }: LeftOut, { station }: Pairs): Pairs {
  const judged = [...ids].filter((_, k) => !Number.isNaN(error[k]!));
  return { station, estimate: judged.map((i) => lnGrid(stations.gridMm[i]!)) };
}

/**
 * The table that stands beside adjusted rain: grid alone, stations alone and adjusted, each left out one by one and by
 * cells, with the normals as read and, where there is a period shift, brought to the later period.
 */
export function checkRows(
  network: Network,
  trials: readonly Trial[],
  lambda: number,
  shift: number,
  thresholdMm: number,
): CheckRow[] {
  const moves = shift === 0 ? [0] : [-shift, 0];
  return moves.flatMap((move, k) =>
    trials.flatMap(({ leftOut, adjusted, alone }): CheckRow[] => {
      const common = { leftOut, shifted: k === 1 };
      const own = fromErrors(network, adjusted, move);
      const row = (estimate: CheckRow['estimate'], pairs: Pairs, within = Number.NaN) => ({
        estimate,
        ...common,
        ...figures(pairs, thresholdMm),
        within,
      });
      return [
        row('grid alone', fromGrid(network, adjusted, own)),
        row('stations alone', fromErrors(network, alone, move)),
        row('adjusted', own, withinInterval(adjusted, lambda)),
      ];
    }),
  );
}
