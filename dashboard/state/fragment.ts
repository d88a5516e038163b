import { type RankBy, rankings, type Tier, tiers } from '../../analysis/session-types.ts';
import {
  firstState,
  type Height,
  type PageState,
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
  for (const tier of s.filters.tier) p.append('tier', tier);
  for (const region of s.filters.region) p.append('region', region ?? '');
  for (const material of s.filters.material) p.append('material', material ?? '');
  put('height', s.filters.height && heightText(s.filters.height));
  put('search', s.filters.search);
  put('b', s.selected !== null && String(s.selected));
  put('open', s.opened && '1');
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
      tier: p.getAll('tier').filter((t): t is Tier => among<Tier>(tiers, t) !== null),
      region: p.getAll('region').map(orNull),
      material: p.getAll('material').map(orNull),
      height: heightFrom(p.get('height')),
      search: p.get('search') ?? '',
    },
    selected,
    opened: selected !== null && p.get('open') === '1',
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

const orNull = (text: string): string | null => (text === '' ? null : text);

const heightText = (h: Height): string => `${h.from ?? ''}-${h.below ?? ''}`;

function heightFrom(text: string | null): Height | null {
  const match = /^(\d*\.?\d*)-(\d*\.?\d*)$/.exec(text ?? '');
  const [, from, below] = match ?? [];
  if (!from && !below) return null;
  return { ...(from && { from: Number(from) }), ...(below && { below: Number(below) }) };
}

function sortFrom(text: string | null): Sort | null {
  const match = /^(-?)([a-z]\w*)$/.exec(text ?? '');
  return match?.[2] ? { column: match[2], descending: match[1] === '-' } : null;
}

function ordinal(text: string | null): number | null {
  return text !== null && /^\d{1,9}$/.test(text) ? Number(text) : null;
}
