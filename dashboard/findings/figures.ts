import type { Estimates, Inference } from '../../analysis/findings/inference.ts';
import type { ShareEstimate } from '../../analysis/findings/share.ts';
import { counted, digits, figureOf, joined } from '../parts/format.ts';
import type { Units } from '../parts/quantity.ts';

/** A share as a percentage with one decimal; figure and sign never part. */
export const percent = (share: number): string =>
  Number.isFinite(share) ? `${digits(share * 100, 1)}\u00a0%` : 'cannot be told';

/** A line of the table of estimates. */
export interface EstimateRow {
  readonly of: string;
  /** Null where nothing was answered. */
  readonly estimate: ShareEstimate | null;
  /** The estimate in words: a share, or an area, and never 0 where nothing was seen. */
  readonly says: string;
  readonly between: string;
}

/** *120 walls*; of buildings, what is said is said of their wettest wall. */
const population = ({ unit, units }: Inference): string => `All ${counted(units, unit)}`;

const range = (low: string, high: string, found: number): string =>
  found === 0 ? `up to ${high}` : `${low} to ${high}`;

function shareRow(of: string, estimate: ShareEstimate | null, unit: string): EstimateRow {
  if (!estimate) return { of, estimate, says: 'no answer yet', between: 'nothing is known' };
  const { n, found, share, low, high } = estimate;
  return {
    of,
    estimate,
    says: found === 0 ? `none seen in ${counted(n, unit)}` : percent(share),
    between: range(percent(low), percent(high), found),
  };
}

function areaRow(of: string, { area }: Estimates, unit: string, units: Units): EstimateRow {
  const area_ = (m2: number): string => joined(figureOf(m2, 'area', units));
  const { n, found, share, areaM2, lowM2, highM2 } = area;
  return {
    of,
    estimate: area,
    says:
      found === 0
        ? `none seen in ${counted(n, unit)}`
        : `${area_(areaM2)}, ${percent(share)} of the wall area`,
    between: range(area_(lowM2), area_(highM2), found),
  };
}

function rowsOf(named: string, estimates: Estimates, unit: string, units: Units): EstimateRow[] {
  return [
    shareRow(named, estimates.share, unit),
    areaRow(`${named}, by wall area`, estimates, unit, units),
  ];
}

/** The estimates: overall without and with replacements, by share and by area, then stratum by stratum. */
export function estimateRows(told: Inference, units: Units): readonly EstimateRow[] {
  const { unit, overall, withReplacements, strata } = told;
  const named = population(told);
  const byStratum = strata.length > 1;
  return [
    ...(overall ? rowsOf(named, overall, unit, units) : []),
    ...(withReplacements
      ? rowsOf(`${named}, with replacements`, withReplacements, unit, units)
      : []),
    ...(byStratum
      ? strata.map((one) =>
          shareRow(`${one.stratum}: ${counted(one.units, unit)}`, one.share, unit),
        )
      : []),
  ];
}

/** How an interval came about, in words. */
export function howWords({ interval, variance, clopperPearson }: ShareEstimate): string {
  const binomial = clopperPearson
    ? `; forgetting that the population is finite (Clopper-Pearson), ${percent(clopperPearson.low)} to ${percent(clopperPearson.high)}`
    : '';
  return `${interval}; variance ${variance}${binomial}`;
}

/** What came back of the plan, in a few figures. */
export function responseFigures({ unit, response }: Inference): readonly [string, string][] {
  const count = (n: number): string => digits(n, 0);
  const replaced: [string, string][] =
    response.replacementsAnswered > 0
      ? [['Replacements answered', count(response.replacementsAnswered)]]
      : [];
  return [
    [`Selected ${unit}s`, count(response.selected)],
    ['Answered', count(response.answered)],
    ['Response rate', percent(response.rate)],
    ['Could not be reached', count(response.notAccessible)],
    ['No opening on record yet', count(response.unanswered - response.notAccessible)],
    ...replaced,
    ['Findings kept out', count(response.outsideRows)],
  ];
}
