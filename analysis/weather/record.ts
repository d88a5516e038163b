import { Refusal } from '../read/outcome.ts';
import { notesOn } from './notes.ts';
import type { WeatherRecord } from './read.ts';
import {
  airfieldSumAt,
  type DirectionSums,
  directionSums,
  kappaAt,
  sectorShares,
  step,
  total,
} from './rose.ts';
import type { Hours } from './settle.ts';
import { drivingRainClass, sentencesAbout } from './tables.ts';
import { type Coverage, coverage, isDriven, type Tally, tally } from './tally.ts';

/** What a rose of wind and rain is drawn from; directions are those the wind comes from, azimuths those a wall faces. */
export interface WindRose {
  readonly file: string;
  /** Share of Σ r v by sector of 10°, 36 of them from north clockwise; they add up to 1. */
  readonly sectors: readonly { readonly directionDeg: number; readonly share: number }[];
  /** κ of walls facing 0°, 10° … 350°. */
  readonly kappa: Float64Array;
  /** ISO 15927-3 airfield annual index of the same azimuths, mm a year (mm in all where there is less than a year). */
  readonly airfieldIndex: Float64Array;
  /** Share of Σ r v in hours without a direction, 0-1: outside the sectors. */
  readonly directionless: number;
  /** Years covered, one decimal. */
  readonly years: number;
  readonly labels: {
    readonly share: string;
    readonly kappa: string;
    readonly airfieldIndex: string;
  };
}

/** The annual driving-rain index. */
interface DrivingRainIndex {
  /** Rain (m a year) × mean wind of all hours (m/s); null where the record has no wind for most hours. */
  readonly m2PerS: number | null;
  /** Null where there is no index, or less than a year to make it from. */
  readonly class: string | null;
}

/** Driven rain of an hourly record; every figure rounded to its published step. */
export interface DrivingRain {
  readonly file: string;
  readonly tally: Tally;
  readonly coverage: Coverage;
  /** Years by which sums are divided: those covered, or 1 where that is less than a year. */
  readonly dividedBy: number;
  /** Rain and frozen precipitation, mm a year (mm in all where there is less than a year). */
  readonly rainMm: number;
  readonly frozenMm: number;
  /** U = Σ r v / Σ r, m/s. */
  readonly windInRain: number;
  readonly meanWind: number;
  readonly index: DrivingRainIndex;
  readonly rose: WindRose;
  /** κ of walls facing 0° … 359°, rounded to 1e-10: trigonometry differs between engines, this table does not. */
  readonly kappaByDegree: Float64Array;
  /** Airfield index of the same azimuths, rounded to 1e-6 mm. */
  readonly airfieldByDegree: Float64Array;
  /** What to know about this record, a sentence each, gravest first. */
  readonly notes: readonly string[];
  /** The limits of ISO 15927-3: to stand beside every airfield or wall index. */
  readonly isoLimits: readonly string[];
  /** To stand beside the driving-rain index. */
  readonly indexNotes: readonly string[];
}

const rounded = (x: number, decimals: number): number =>
  Math.round(x * 10 ** decimals) / 10 ** decimals;

const everyDegree = (value: (azimuthDeg: number) => number, decimals: number): Float64Array =>
  Float64Array.from({ length: 360 }, (_, azimuth) => rounded(value(azimuth), decimals));

const everyStep = (byDegree: Float64Array): Float64Array =>
  byDegree.filter((_, azimuth) => azimuth % step === 0);

/** Σ r v / Σ r over hours with rain and wind, m/s; not rounded. NaN without such an hour. */
export function rainWeightedWind(hours: Hours): number {
  const { driven } = tally(hours);
  return driven.rainWind / driven.mm;
}

/** Sums by direction over the hours of driven rain. */
export const drivenSums = (hours: Hours): DirectionSums =>
  directionSums(hours, (i) => isDriven(hours, i));

function refuseWithoutDrivenRain(file: string, sums: DirectionSums): void {
  if (total(sums.rainWind) > 0) return;
  throw new Refusal(
    file,
    `${file} has no hour with rain above 0 °C, wind, and the direction of the wind, so it says nothing about which walls are wetted. Choose a longer record.`,
  );
}

function indexOf(
  rainMm: number,
  { meanWind, present, withoutSpeed, span }: Tally,
  { partYear, dryHoursLeftOut }: Coverage,
): DrivingRainIndex {
  if (dryHoursLeftOut && present - withoutSpeed < span / 2) return { m2PerS: null, class: null };
  const m2PerS = rounded((rainMm / 1000) * meanWind, 6);
  return { m2PerS, class: partYear ? null : drivingRainClass(m2PerS) };
}

const sectorsOf = (sums: DirectionSums): WindRose['sectors'] =>
  [...sectorShares(sums)].map((share, i) => ({
    directionDeg: step * i,
    share: rounded(share, 10),
  }));

const labelsOf = ({ partYear }: Coverage): WindRose['labels'] => ({
  share: 'share of wind × rain by the direction the wind comes from',
  kappa: 'κ: share of wind × rain met by a wall, by the direction it faces',
  airfieldIndex: `airfield index of ISO 15927-3, ${partYear ? 'mm over the record' : 'mm a year'}, by the direction a wall faces`,
});

/**
 * Driven rain of an hourly record. Frozen hours enter nothing but their own count; hours of unknown direction enter U and
 * the rain but no figure of direction; hours without wind enter the rain alone. Sums are divided by the years covered,
 * or by 1 where there is less than a year. Throws a `Refusal` when no hour has rain, wind and a direction.
 */
export function drivingRain(record: WeatherRecord): DrivingRain {
  const { file, hours } = record;
  const sums = drivenSums(hours);
  refuseWithoutDrivenRain(file, sums);
  const counts = tally(hours);
  const covered = coverage(hours, counts);
  const dividedBy = covered.partYear ? 1 : covered.years;
  const kappaByDegree = everyDegree((azimuth) => kappaAt(sums, azimuth), 10);
  const airfieldByDegree = everyDegree((azimuth) => airfieldSumAt(sums, azimuth) / dividedBy, 6);
  const rainMm = rounded(counts.wet.mm / dividedBy, 4);
  return {
    file,
    tally: counts,
    coverage: covered,
    dividedBy,
    rainMm,
    frozenMm: rounded(counts.frozen.mm / dividedBy, 4),
    windInRain: rounded(counts.driven.rainWind / counts.driven.mm, 9),
    meanWind: rounded(counts.meanWind, 9),
    index: indexOf(rainMm, counts, covered),
    rose: {
      file,
      sectors: sectorsOf(sums),
      kappa: everyStep(kappaByDegree),
      airfieldIndex: everyStep(airfieldByDegree),
      directionless: rounded(counts.directionless.rainWind / counts.driven.rainWind, 10),
      years: rounded(covered.years, 1),
      labels: labelsOf(covered),
    },
    kappaByDegree,
    airfieldByDegree,
    notes: notesOn(record, counts, covered),
    isoLimits: sentencesAbout('airfield index'),
    indexNotes: sentencesAbout('driving-rain index'),
  };
}
