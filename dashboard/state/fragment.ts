import type { Band } from '../../analysis/bands.ts';
import {
  type Condition,
  type Conditions,
  type RankBy,
  rankings,
} from '../../analysis/session-types.ts';
import { siftColumns } from '../../analysis/sift/columns.ts';
import {
  firstState,
  folds,
  type PageState,
  type RowForm,
  rowForms,
  type Sheet,
  type Sort,
  sheets,
  type View,
  views,
} from './page-state.ts';

/**
 * The state as an address fragment, `#/rank?tier=First+look&sort=-rain_mm`, and back. What equals the first state is
 * left out; what is not understood is dropped, so an old or mistyped address still opens the page.
 */
export function toFragment(s: PageState): string {
  const p = new URLSearchParams();
  const put = (name: string, value: string | null | false) => {
    if (value) p.append(name, value);
  };
  put('by', s.by !== firstState.by && s.by);
  put('sort', s.sort && `${s.sort.descending ? '-' : ''}${s.sort.column}`);
  for (const [column, condition] of Object.entries(s.filters.on)) {
    for (const text of conditionTexts(condition)) p.append(column, text);
  }
  put('search', s.filters.search);
  put('b', s.selected !== null && String(s.selected));
  put('open', s.opened && '1');
  put('rows', s.rows !== firstState.rows && s.rows);
  put('charts', s.charts !== firstState.charts && s.charts);
  put('columns', s.columns.join(','));
  put('pinned', s.pinned.join(','));
  put('half', s.half !== firstState.half && s.half);
  put('units', s.units !== firstState.units && s.units);
  put('sheet', s.sheet !== firstState.sheet && s.sheet);
  put('own', s.own && '1');
  const rest = p.toString();
  return `#/${s.view.toLowerCase()}${rest && `?${rest}`}`;
}

export function fromFragment(fragment: string): PageState {
  const [path = '', rest = ''] = fragment.replace(/^#?\/?/, '').split('?', 2);
  const p = new URLSearchParams(rest);
  const selected = ordinal(p.get('b'));
  return {
    view: views.find((v) => v.toLowerCase() === path.toLowerCase()) ?? firstState.view,
    by: among<RankBy>(rankings, p.get('by')) ?? firstState.by,
    sort: sortFrom(p.get('sort')),
    filters: {
      on: conditionsFrom(p),
      search: p.get('search') ?? '',
    },
    selected,
    opened: selected !== null && p.get('open') === '1',
    rows: among<RowForm>(rowForms, p.get('rows')) ?? firstState.rows,
    charts: among<PageState['charts']>(folds, p.get('charts')) ?? firstState.charts,
    columns: columnsFrom(p.get('columns')),
    pinned: columnsFrom(p.get('pinned')),
    half: p.get('half') === 'map' ? 'map' : 'list',
    units: p.get('units') === 'american' ? 'american' : 'metric',
    sheet: among<Sheet>(sheets, p.get('sheet')) ?? firstState.sheet,
    own: p.get('own') === '1',
  };
}

/** True where going from one to the other is a step a reader would want to go back from. */
export const isStep = (a: PageState, b: PageState): boolean =>
  a.view !== b.view || a.opened !== b.opened;

export const viewFragment = (s: PageState, view: View): string =>
  toFragment({ ...s, view, opened: false });

const among = <T extends string>(known: readonly T[], text: string | null): T | null =>
  known.find((k) => k === text) ?? null;

/** *First look* once for each word, an empty one for no record; *40..60* for a range. */
const conditionTexts = (condition: Condition): readonly string[] =>
  'among' in condition
    ? condition.among.map((word) => word ?? '')
    : [`${condition.from ?? ''}..${condition.below ?? ''}`];

function conditionsFrom(p: URLSearchParams): Conditions {
  const found = [...new Set(p.keys())].map((column) => [column, conditionFrom(column, p)] as const);
  return Object.fromEntries(found.filter((entry): entry is [string, Condition] => !!entry[1]));
}

function conditionFrom(column: string, p: URLSearchParams): Condition | null {
  const kind = siftColumns.get(column)?.kind;
  if (kind === 'category') return amongFrom(column, p.getAll(column));
  if (kind !== 'number') return null;
  return p.get(column) === '' ? { among: [null] } : rangeFrom(p.get(column));
}

function amongFrom(column: string, texts: readonly string[]): Condition | null {
  // Words known before any file is; a word of another column that no building has lets none through, and shows.
  const known = siftColumns.get(column)?.words;
  const among = [...new Set(texts)].filter((text) => !known || known.includes(text)).map(orNull);
  return among.length > 0 ? { among } : null;
}

const orNull = (text: string): string | null => (text === '' ? null : text);

function rangeFrom(text: string | null): Band | null {
  const [from = '', below = '', more] = (text ?? '').split('..');
  const ends = { ...(from && { from: Number(from) }), ...(below && { below: Number(below) }) };
  const numbers = Object.values(ends);
  const { from: least = Number.NEGATIVE_INFINITY, below: most = Number.POSITIVE_INFINITY } =
    ends as Band;
  const sound = numbers.length > 0 && numbers.every(Number.isFinite) && least < most;
  return sound && more === undefined ? ends : null;
}

/** Names of columns; whether the table has them is the table's to know, for files bring columns of their own. */
const columnsFrom = (text: string | null): readonly string[] => [
  ...new Set((text ?? '').split(',').filter((name) => name !== '')),
];

function sortFrom(text: string | null): Sort | null {
  const match = /^(-?)([a-z]\w*)$/.exec(text ?? '');
  return match?.[2] && siftColumns.has(match[2])
    ? { column: match[2], descending: match[1] === '-' }
    : null;
}

function ordinal(text: string | null): number | null {
  return text !== null && /^\d{1,9}$/.test(text) ? Number(text) : null;
}
