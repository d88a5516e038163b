import { type DiscoveryAim, discoverySize } from '../../analysis/sample/discovery.ts';
import { type ProportionAim, proportionSize } from '../../analysis/sample/proportion.ts';
import {
  affordable,
  type CurvePoint,
  costOf,
  discoveryCurve,
  marginCurve,
  type OpeningCosts,
} from '../../analysis/sample/size.ts';
import { counted, type Outcome, type SampleUnit } from '../../analysis/sample/types.ts';
import { numberOf, type SampleForm, shareOf } from './form.ts';

/** How many openings, and what they buy in words. */
export interface SizeAnswer {
  readonly n: number;
  /** A whole sentence. */
  readonly words: string;
}

const proportionAim = (form: SampleForm, population: number): ProportionAim => ({
  population,
  margin: shareOf(form.margin),
  confidence: shareOf(form.confidence),
  share: shareOf(form.share),
});

const discoveryAim = (form: SampleForm, population: number): DiscoveryAim => ({
  population,
  share: shareOf(form.catchShare),
  confidence: shareOf(form.confidence),
  detection: numberOf(form.detection),
});

const thousands = (n: number): string => n.toLocaleString('en-US');
/** One decimal, rounded down: a chance is never said to be greater than it is. */
const percentDown = (share: number): string => `${Math.floor(share * 1000 + 1e-6) / 10} %`;

function forProportion(form: SampleForm, population: number, unit: SampleUnit) {
  const size = proportionSize(proportionAim(form, population));
  if (!size.ok) return size;
  const words = `Open ${thousands(size.n)} of ${counted(population, unit)}: a share near ${form.share} % is then estimated to within ±${form.margin} percentage points with ${form.confidence} % confidence.`;
  return { ok: true as const, says: [], n: size.n, words };
}

function forDiscovery(form: SampleForm, population: number, unit: SampleUnit) {
  const size = discoverySize(discoveryAim(form, population));
  if (!size.ok) return size;
  const { n, decayed, chance } = size;
  const verb = decayed === 1 ? 'is' : 'are';
  const words = `Open ${thousands(n)} of ${counted(population, unit)}: if ${form.catchShare} % or more (${counted(decayed, unit)}) ${verb} decayed, at least one is seen with a chance of ${percentDown(chance)} (asked: ${form.confidence} %); an opening on a decayed ${unit} is taken to see the decay with a chance of ${form.detection}.`;
  return { ok: true as const, says: [], n, words };
}

/** Openings for the aim of the form among so many units. */
export const sizeAnswer = (
  form: SampleForm,
  population: number,
  unit: SampleUnit,
): Outcome<SizeAnswer> =>
  form.aim === 'proportion'
    ? forProportion(form, population, unit)
    : forDiscovery(form, population, unit);

/** n against what it buys, up to `most`. Only for an aim that has an answer. */
export const curveOf = (form: SampleForm, population: number, most: number): CurvePoint[] =>
  form.aim === 'proportion'
    ? marginCurve(proportionAim(form, population), most)
    : discoveryCurve(discoveryAim(form, population), most);

/** Costs as typed; null until those of an opening, its repair and the access are there. */
export function costsOf({ opening, repair, access }: SampleForm): OpeningCosts | null {
  const costs = {
    opening: numberOf(opening),
    repair: numberOf(repair),
    access: numberOf(access),
  };
  return Object.values(costs).every((cost) => Number.isFinite(cost) && cost >= 0) ? costs : null;
}

/** Costs as a plan states them: the user's figures by what they are for, with their currency; empty until complete. */
export function plannedCosts(form: SampleForm): Record<string, number> {
  const costs = costsOf(form);
  if (costs === null) return {};
  const budget = numberOf(form.budget);
  const all = Object.entries({ ...costs, ...(budget >= 0 && { budget }) });
  const currency = form.currency.trim() || 'no currency';
  return Object.fromEntries(all.map(([name, cost]) => [`${name} (${currency})`, cost]));
}

const amount = (sum: number, currency: string): string =>
  `${thousands(Math.round(sum * 100) / 100)} ${currency.trim() || '(no currency)'}`;

/** What n openings cost by the user's own figures, as a sentence. */
export const costWords = (n: number, costs: OpeningCosts, currency: string): string =>
  `${counted(n, 'opening')} × ${amount(costs.opening + costs.repair, currency)} + ${amount(costs.access, currency)} access = ${amount(costOf(n, costs), currency)}.`;

export interface BudgetAnswer {
  readonly n: number;
  readonly words: string;
}

/** What the budget buys; null while no budget or not all costs were given. */
export function budgetAnswer(form: SampleForm, population: number): Outcome<BudgetAnswer> | null {
  const costs = costsOf(form);
  if (costs === null || form.budget.trim() === '' || population < 1) return null;
  const found = affordable(numberOf(form.budget), costs, population);
  if (!found.ok) return found;
  const words = `The budget of ${amount(numberOf(form.budget), form.currency)} buys ${counted(found.n, 'opening')} (${amount(found.cost, form.currency)}).`;
  return { ok: true, says: [], n: found.n, words };
}

/** Why so many are opened: by the aim where the number is its answer, else as a number of the user's own. */
export const reasonForSize = (form: SampleForm, answer: Outcome<SizeAnswer>): string =>
  answer.ok && answer.n === numberOf(form.openings)
    ? answer.words
    : 'The number of openings was given by hand, not computed from an aim.';
