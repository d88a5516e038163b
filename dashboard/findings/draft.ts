import { quantities } from '../../analysis/units.ts';
import type { Units } from '../parts/quantity.ts';

/** A finding as it is being written down: texts by column of the contract, '' where nothing is said yet. */
export type Draft = Readonly<Record<string, string>>;

/** What stays from one finding to the next: the same person works through a plan in a day. */
const lasting = ['observed_on', 'method', 'observer'] as const;

export const nextDraft = (before: Draft): Draft =>
  Object.fromEntries(lasting.map((column) => [column, before[column] ?? '']));

export const emptyDraft: Draft = nextDraft({});

const said = (draft: Draft, column: string): string => draft[column]?.trim() ?? '';
const number = (draft: Draft, column: string): number => Number(said(draft, column));

/** Only an opening can show the sheathing: the question is put for no other method. */
export const asksSheathing = (draft: Draft): boolean =>
  said(draft, 'method') === 'opening' && said(draft, 'not_accessible') !== 'yes';

/** What is wanted before the finding can be kept, and beside which field to say so. */
interface Want {
  readonly column: string;
  readonly says: string;
}

const wants: readonly (readonly [column: string, wanted: (draft: Draft) => boolean, string])[] = [
  ['building_id', (d) => said(d, 'building_id') === '', 'Say which building was looked at.'],
  ['wall_id', (d) => said(d, 'wall_id') === '', 'Say which wall was looked at.'],
  ['method', (d) => said(d, 'method') === '', 'Say how the wall was looked at.'],
  [
    'sheathing_seen',
    (d) => asksSheathing(d) && said(d, 'sheathing_seen') === '',
    'Say whether the sheathing itself was seen: only then does the opening count in an estimate.',
  ],
  [
    'condition',
    (d) => said(d, 'sheathing_seen') === 'yes' && said(d, 'condition') === '',
    'Say in what condition the sheathing was.',
  ],
  [
    'moisture_pct',
    (d) => !(number(d, 'moisture_pct') >= 0 && number(d, 'moisture_pct') <= 200),
    'A moisture reading is a number from 0 to 200.',
  ],
  [
    'reading_scale',
    (d) => said(d, 'moisture_pct') !== '' && said(d, 'reading_scale') === '',
    'Say on which scale the meter reads: without it the reading cannot be compared.',
  ],
  ['extent_m2', (d) => !(number(d, 'extent_m2') >= 0), 'The extent is an area of 0 or more.'],
];

/** Everything wanted, in the order of the form. */
export const wantedOf = (draft: Draft): readonly Want[] =>
  wants.filter(([, wanted]) => wanted(draft)).map(([column, , says]) => ({ column, says }));

/** The cells that are kept: nothing blank, and no sheathing seen by other means than an opening. */
export function cellsOf(draft: Draft): Draft {
  const answered = asksSheathing(draft)
    ? draft
    : { ...draft, sheathing_seen: said(draft, 'method') === '' ? '' : 'no' };
  const kept = Object.keys(answered).map((column) => [column, said(answered, column)] as const);
  return Object.fromEntries(kept.filter(([, text]) => text !== ''));
}

const ft2PerM2 = quantities.area.factor;
const scaled = (text: string, by: (value: number) => number): string =>
  text.trim() === '' || Number.isNaN(Number(text)) ? text : String(by(Number(text)));

/** An extent kept in m² as the sheet's units say it: ten digits, so that what was typed in ft² reads the same. */
export const shownExtent = (m2: string, units: Units): string =>
  units === 'metric' ? m2 : scaled(m2, (area) => Number((area * ft2PerM2).toPrecision(10)));

/** An extent as typed in the sheet's units, in m² and unrounded. */
export const storedExtent = (typed: string, units: Units): string =>
  units === 'metric' ? typed : scaled(typed, (area) => area / ft2PerM2);
