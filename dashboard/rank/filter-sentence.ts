import type { Band } from '../../analysis/bands.ts';
import type { Condition, Frame, RankBy } from '../../analysis/session-types.ts';
import { counted, digits, figureOf, noRecord } from '../parts/format.ts';
import { columnKinds, type Units } from '../parts/quantity.ts';
import { label, plainWord } from '../parts/words.ts';
import { type Change, patch, setCondition, setSearch, toggleAmong } from '../state/changes.ts';
import type { Filters, PageState } from '../state/page-state.ts';
import { needInFull } from './need-words.ts';

/** One active filter as words, with the change that takes it away. */
export interface Phrase {
  readonly words: string;
  readonly remove: Change;
}

/** Phrases of one kind, joined by *or*; groups are joined by commas. */
export interface PhraseGroup {
  readonly lead: string;
  readonly phrases: readonly Phrase[];
}

/** What leads a column's words in the sentence; other columns are led by their label. */
const leads: ReadonlyMap<string, string> = new Map([
  ['tier', 'in the tier'],
  ['region', 'in the region'],
  ['material', 'clad in'],
  ['height_used_m', 'with a height'],
  ['installed_used', 'with a cladding year'],
]);

const leadOf = (column: string): string =>
  leads.get(column) ?? `with ${label(column).toLowerCase()}`;

/** A range in the units in use: *under 10 m*, *10 to 15 m*, *50 m and over*. */
export function rangeWords(column: string, { from, below }: Band, units: Units): string {
  const kind = columnKinds[column] ?? 'plain';
  // A band of years or of things counted ends with a whole number, as people say it.
  if (kind === 'year') return yearsWords(from, below);
  if (kind === 'count') return countsWords(from, below);
  const unit = figureOf(0, kind, units).unit;
  const of = (value: number) => figureOf(value, kind, units).digits.replace(/\.0+$/, '');
  const end = unit ? ` ${unit}` : '';
  if (from === undefined) return `under ${of(below ?? 0)}${end}`;
  if (below === undefined) return `${of(from)}${end} and over`;
  return `${of(from)} to ${of(below)}${end}`;
}

function yearsWords(from: number | undefined, below: number | undefined): string {
  if (from === undefined) return `before ${below}`;
  if (below === undefined) return `from ${from}`;
  return from === below - 1 ? `${from}` : `${from} to ${below - 1}`;
}

function countsWords(from: number | undefined, below: number | undefined): string {
  if (from === undefined) return `up to ${digits((below ?? 1) - 1, 0)}`;
  if (below === undefined) return `${digits(from, 0)} and over`;
  return from === below - 1 ? digits(from, 0) : `${digits(from, 0)} to ${digits(below - 1, 0)}`;
}

/** A word of a column as it is read; what the rules ask is led to its clause. */
export function valueWords(column: string, value: string | null): string {
  if (value === null) return noRecord;
  return column.startsWith('need_') ? needInFull(value) : plainWord(value);
}

function phrasesOf(column: string, condition: Condition, units: Units): readonly Phrase[] {
  if (!('among' in condition)) {
    return [{ words: rangeWords(column, condition, units), remove: setCondition(column, null) }];
  }
  return condition.among.map((value) => ({
    words: valueWords(column, value),
    remove: toggleAmong(column, value),
  }));
}

/** The active filters, in the order in which the sentence says them. */
export function phraseGroups(filters: Filters, units: Units): readonly PhraseGroup[] {
  const known = [...leads.keys()];
  const place = (column: string) => (known.includes(column) ? known.indexOf(column) : known.length);
  const columns = Object.entries(filters.on).sort(
    ([a], [b]) => place(a) - place(b) || (a < b ? -1 : 1),
  );
  const groups = [
    ...columns.map(([column, condition]) => ({
      lead: leadOf(column),
      phrases: phrasesOf(column, condition, units),
    })),
    { lead: 'matching', phrases: searchPhrase(filters.search) },
  ];
  return groups.filter((group) => group.phrases.length > 0);
}

/** The active filters as a noun phrase, for totals, plans and files: *in the region OR, clad in stucco*; '' for none. */
export const filterWords = (filters: Filters, units: Units): string =>
  phraseGroups(filters, units)
    .map(({ lead, phrases }) => `${lead} ${phrases.map(({ words }) => words).join(' or ')}`)
    .join(', ');

const searchPhrase = (search: string): readonly Phrase[] =>
  search.trim() ? [{ words: `“${search.trim()}”`, remove: setSearch('') }] : [];

/** *57 of 412 buildings*, or *All 412 buildings*. */
export const countWords = (shown: number, all: number): string =>
  shown === all
    ? `${all === 1 ? 'The only' : `All ${digits(all, 0)}`} building${all === 1 ? '' : 's'}`
    : `${digits(shown, 0)} of ${counted(all, 'building')}`;

/** How many places would be looked at first, were every prior to lean one way. */
export const leaningWords = ({
  tierLow,
  tierHigh,
}: Pick<Frame['counts'], 'tierLow' | 'tierHigh'>): string =>
  `With all unknowns leaning low ${digits(tierLow['First look'], 0)} are First look, leaning high ${digits(tierHigh['First look'], 0)}.`;

export const rankWords: Readonly<Record<RankBy, string>> = {
  index: 'index',
  wetting: 'wetting',
  high: 'high end',
  value_at_tier: 'value in tier',
};

/** What has to be said of an order beside its name. */
const remarks: Partial<Record<RankBy, string>> = {
  // The other orders are by their own figure alone.
  index: ', reported leaks first',
  value_at_tier: ', amounts as they stand, whatever their currency',
};

/** How the rows are ordered, as the end of the sentence says it, with the change back to the ranking. */
export function orderWords(
  state: Pick<PageState, 'by' | 'sort'>,
  columnLabel: string,
): { words: string; back: Change | null } {
  if (!state.sort) {
    return { words: `ranked by ${rankWords[state.by]}${remarks[state.by] ?? ''}`, back: null };
  }
  const direction = state.sort.descending ? 'descending' : 'ascending';
  return {
    words: `sorted by ${columnLabel.toLowerCase()}, ${direction}`,
    back: patch({ sort: null }),
  };
}
