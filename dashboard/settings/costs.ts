import type { TierArea } from '../../analysis/session-types.ts';
import type { Range, UnitCosts } from '../../analysis/settings.ts';
import { quantities } from '../../analysis/units.ts';
import { digits, figureOf, joined, noRecord } from '../parts/format.ts';
import type { Units } from '../parts/quantity.ts';

export const ends = ['low', 'likely', 'high'] as const;

type Texts = readonly [low: string, likely: string, high: string];

/** The form as it stands: nothing is filled in for the user. Costs are per m², whatever the units of the sheet. */
export interface CostForm {
  readonly currency: string;
  readonly cost: Texts;
  readonly share: Texts;
}

const mapped = <A, B>(range: readonly [A, A, A], of: (a: A) => B): [B, B, B] => [
  of(range[0]),
  of(range[1]),
  of(range[2]),
];

const ft2PerM2 = quantities.area.factor;

const scaled = (text: string, by: (value: number) => number): string =>
  text.trim() === '' ? '' : String(by(Number(text)));

/** A cost per m² as the sheet's units say it: ten digits, so that what was typed per ft² reads the same. */
export const shownCost = (perM2: string, units: Units): string =>
  units === 'metric' ? perM2 : scaled(perM2, (cost) => Number((cost / ft2PerM2).toPrecision(10)));

/** A cost as typed in the sheet's units, per m² and unrounded. */
export const storedCost = (typed: string, units: Units): string =>
  units === 'metric' ? typed : scaled(typed, (cost) => cost * ft2PerM2);

export const formOf = (costs: UnitCosts | null): CostForm =>
  costs
    ? {
        currency: costs.currency,
        cost: mapped(costs.cost_per_m2, String),
        share: mapped(costs.share, String),
      }
    : { currency: '', cost: ['', '', ''], share: ['', '', ''] };

const filled = (form: CostForm): number =>
  [form.currency, ...form.cost, ...form.share].filter((text) => text.trim() !== '').length;

/** Fields of a form that was begun and still wants some. */
export const missingIn = (form: CostForm): number => (filled(form) === 0 ? 0 : 7 - filled(form));

/** The costs of a filled form; null while any field is empty. */
export const costsOf = (form: CostForm): UnitCosts | null =>
  filled(form) < 7
    ? null
    : {
        currency: form.currency.trim(),
        cost_per_m2: mapped(form.cost, Number),
        share: mapped(form.share, Number),
      };

/** What an area comes to: low × low, likely × likely, high × high. */
export function budgetOf(areaM2: number, { cost_per_m2, share }: UnitCosts): Range {
  const at = (i: 0 | 1 | 2): number => areaM2 * cost_per_m2[i] * share[i];
  return [at(0), at(1), at(2)];
}

/** Three digits: a sum of guesses has no more. */
export const roundSum = (sum: number): number => Number(sum.toPrecision(3));

/** False where no wall of the tier has an area on record: its sum is then unknown, not 0. */
export const isAreaKnown = ({ walls, unknownArea }: TierArea): boolean =>
  walls === 0 || walls > unknownArea;

export const areaWords = (area: TierArea, units: Units): string =>
  isAreaKnown(area) ? joined(figureOf(area.areaM2, 'area', units)) : noRecord;

/** Low, likely and high of a tier, as they stand in a table. */
export const budgetWords = (area: TierArea, costs: UnitCosts): readonly string[] =>
  budgetOf(area.areaM2, costs).map((sum) =>
    isAreaKnown(area) ? digits(roundSum(sum), 0) : noRecord,
  );
