import type { Frame, RankBy } from '../../analysis/session-types.ts';
import { digits, figureOf, noRecord } from '../parts/format.ts';
import type { Units } from '../parts/quantity.ts';
import { plainWord } from '../parts/words.ts';
import {
  type Change,
  patch,
  setHeight,
  setSearch,
  toggleIn,
  toggleTier,
} from '../state/changes.ts';
import type { Filters, Height, PageState } from '../state/page-state.ts';

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

/** A height band in the units in use: *under 10 m*, *10 to 15 m*, *50 m and over*. */
export function heightWords(height: Height, units: Units): string {
  const of = (metres: number) => figureOf(metres, 'height', units).digits.replace(/\.0$/, '');
  const unit = figureOf(0, 'height', units).unit;
  if (height.from === undefined) return `under ${of(height.below ?? 0)} ${unit}`;
  if (height.below === undefined) return `${of(height.from)} ${unit} and over`;
  return `${of(height.from)} to ${of(height.below)} ${unit}`;
}

const valueWords = (value: string | null): string => (value === null ? noRecord : plainWord(value));

/** The active filters, in the order in which the sentence says them. */
export function phraseGroups(filters: Filters, units: Units): readonly PhraseGroup[] {
  const groups: PhraseGroup[] = [
    {
      lead: 'in the tier',
      phrases: filters.tier.map((tier) => ({ words: tier, remove: toggleTier(tier) })),
    },
    {
      lead: 'in the region',
      phrases: filters.region.map((r) => ({ words: valueWords(r), remove: toggleIn('region', r) })),
    },
    {
      lead: 'clad in',
      phrases: filters.material.map((m) => ({
        words: valueWords(m),
        remove: toggleIn('material', m),
      })),
    },
    { lead: 'with a height', phrases: heightPhrase(filters.height, units) },
    { lead: 'matching', phrases: searchPhrase(filters.search) },
  ];
  return groups.filter((group) => group.phrases.length > 0);
}

const heightPhrase = (height: Height | null, units: Units): readonly Phrase[] =>
  height ? [{ words: heightWords(height, units), remove: setHeight(null) }] : [];

const searchPhrase = (search: string): readonly Phrase[] =>
  search.trim() ? [{ words: `“${search.trim()}”`, remove: setSearch('') }] : [];

/** *57 of 412 buildings*, or *All 412 buildings*. */
export const countWords = (shown: number, all: number): string =>
  shown === all
    ? `All ${digits(all, 0)} buildings`
    : `${digits(shown, 0)} of ${digits(all, 0)} buildings`;

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

/** How the rows are ordered, as the end of the sentence says it, with the change back to the ranking. */
export function orderWords(
  state: Pick<PageState, 'by' | 'sort'>,
  columnLabel: string,
): { words: string; back: Change | null } {
  if (!state.sort) {
    // A reported leak outranks any index (the other orders are by their own figure alone).
    const leaks = state.by === 'index' ? ', reported leaks first' : '';
    return { words: `ranked by ${rankWords[state.by]}${leaks}`, back: null };
  }
  const direction = state.sort.descending ? 'descending' : 'ascending';
  return {
    words: `sorted by ${columnLabel.toLowerCase()}, ${direction}`,
    back: patch({ sort: null }),
  };
}
