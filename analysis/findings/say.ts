import type { Inference } from './inference.ts';
import type { ShareEstimate } from './share.ts';
import { isKnown, type ResponseClass } from './weights.ts';

type Told = Omit<Inference, 'says'>;

/** A share as a percentage with one decimal, and no more digits than it has. */
const percent = (share: number): string => `${Math.round(share * 1000) / 10} %`;
const plural = (n: number, one: string): string => (n === 1 ? `1 ${one}` : `${n} ${one}s`);

function result(
  { unit, units, question }: Told,
  { n, found, share, low, high }: ShareEstimate,
): string {
  const confidence = `${percent(question.confidence)} confidence`;
  const openings = plural(n, unit);
  if (found === 0) {
    const most = Math.floor(high * units + 1e-9);
    return `No softened or decayed sheathing was seen in ${openings} opened. That does not show that there is none: with ${confidence}, up to ${percent(high)} of the ${plural(units, unit)} (${most}) may have it.`;
  }
  const every =
    found === n ? ` All ${openings} opened showed it, which does not show that all have it.` : '';
  return `Softened or decayed sheathing: ${percent(share)} of the ${plural(units, unit)}, between ${percent(low)} and ${percent(high)} with ${confidence} (seen in ${found} of ${openings} opened).${every}`;
}

function misses({ question, overall }: Told, sure: ShareEstimate | null): string[] {
  if (!sure || !overall) return [];
  return [
    `Openings are taken to show softened or decayed sheathing in ${percent(question.detection)} of the cases where it is there, so estimate and interval allow for what they missed: the upper end is ${percent(overall.share.high)} instead of ${percent(sure.high)}.`,
  ];
}

function responding({ unit, response }: Told): string[] {
  const { selected, answered, unanswered, notAccessible, rate } = response;
  if (unanswered === 0) return [];
  return [
    `${answered} of ${plural(selected, `selected ${unit}`)} answered (${percent(rate)}); ${notAccessible} could not be reached, ${unanswered - notAccessible} have no opening on record that showed the sheathing. Those that answered stand for the others of their stratum. If the others differ, so does the truth.`,
  ];
}

function outside({ response }: Told): string[] {
  const { outsideRows } = response;
  if (outsideRows === 0) return [];
  const are = outsideRows === 1 ? 'finding belongs' : 'findings belong';
  return [
    `${outsideRows} ${are} to no selected unit of this plan. They are kept and shown, and left out of every estimate: who chose them was not chance.`,
  ];
}

function replacing({ response, withReplacements, overall }: Told): string[] {
  if (!withReplacements || !overall) return [];
  return [
    `${plural(response.replacementsAnswered, 'replacement')} answered. With them the share is ${percent(withReplacements.share.share)} instead of ${percent(overall.share.share)}: a replacement is like the unit that it replaces only if what kept that one closed has nothing to do with its condition.`,
  ];
}

const named = (stratum: string): string =>
  stratum === '' ? 'The population' : `Stratum ${stratum}`;

/** Strata of which nothing is known. */
function silentStrata({ strata, unit }: Told): string[] {
  return strata
    .filter(({ share, units }) => share === null && units > 0)
    .map(
      ({ stratum, units }) =>
        `${named(stratum)} has ${plural(units, unit)} and no answer, so nothing is known of it; the overall estimate takes it to be like the rest.`,
    );
}

function thinStrata(classes: readonly ResponseClass[], unit: string): string[] {
  return classes
    .filter((one) => one.members.length === 1 && !isKnown(one))
    .map(
      ({ stratum }) =>
        `${named(stratum)} has one answered ${unit}, so how much its ${unit}s differ cannot be seen; its part of the spread is taken from how far it lies from the overall share.`,
    );
}

function labels({ overall, question }: Told): string[] {
  if (!overall) return [];
  const { variance, interval } = overall.share;
  const balanced =
    question.design === 'balanced'
      ? ' Of the nearest-neighbour form and that of simple random sampling the greater was taken.'
      : '';
  return [`Interval: ${interval}. Variance: ${variance}.${balanced}`];
}

function nothing({ unit, response, probabilitySample }: Told): string {
  if (!probabilitySample)
    return `Not every ${unit} of the population had a known chance of being selected, so the findings stand for themselves and nothing is said of the whole. A sample by chance, without a minimum distance and with openings in every stratum, could.`;
  return `None of ${plural(response.selected, `selected ${unit}`)} has an opening on record that showed its sheathing, so nothing can be said of the population yet. Log openings under this plan with sheathing_seen and condition.`;
}

/** What an inference means, in the order in which a reader needs it. */
export function inferenceSays(
  told: Told,
  classes: readonly ResponseClass[],
  sure: ShareEstimate | null,
): string[] {
  if (!told.overall) return [nothing(told), ...outside(told)];
  return [
    result(told, told.overall.share),
    ...misses(told, sure),
    ...responding(told),
    ...replacing(told),
    ...silentStrata(told),
    ...thinStrata(classes, told.unit),
    ...outside(told),
    ...labels(told),
  ];
}
