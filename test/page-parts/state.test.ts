import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { heightBands } from '../../analysis/bands.ts';
import { rankings, tiers } from '../../analysis/session-types.ts';
import {
  clearFilters,
  closeBuilding,
  nextSort,
  openBuilding,
  otherFiles,
  patch,
  rankBy,
  setCondition,
  setSearch,
  sortBy,
  toggleAmong,
} from '../../dashboard/state/changes.ts';
import { fromFragment, isStep, toFragment } from '../../dashboard/state/fragment.ts';
import {
  amongOf,
  firstState,
  folds,
  noFilters,
  type PageState,
  queryOf,
  rowForms,
  sheets,
  views,
} from '../../dashboard/state/page-state.ts';

const word = fc.string({ maxLength: 12 });
const filled = fc.string({ minLength: 1, maxLength: 12 });

const finite = fc.double({ noNaN: true, noDefaultInfinity: true }).map((x) => (x === 0 ? 0 : x));
const among = <T extends string | null>(values: fc.Arbitrary<T>) =>
  fc.record({ among: fc.uniqueArray(values, { minLength: 1 }) });

const anyState: fc.Arbitrary<PageState> = fc
  .record({
    view: fc.constantFrom(...views),
    by: fc.constantFrom(...rankings),
    sort: fc.option(
      fc.record({ column: fc.constantFrom('rain_mm', 'name'), descending: fc.boolean() }),
    ),
    filters: fc.record({
      on: fc.record(
        {
          tier: among(fc.constantFrom(...tiers)),
          region: among(fc.option(filled)),
          material: among(fc.option(filled)),
          height_used_m: fc.constantFrom(...heightBands),
          longitude: fc.oneof(
            fc.record({ from: finite, below: finite }).filter(({ from, below }) => from < below),
            fc.constant({ among: [null] }),
          ),
        },
        { requiredKeys: [] },
      ),
      search: word,
    }),
    selected: fc.option(fc.nat(999_999)),
    opened: fc.boolean(),
    half: fc.constantFrom('list', 'map'),
    rows: fc.constantFrom(...rowForms),
    charts: fc.constantFrom(...folds),
    columns: fc.uniqueArray(fc.constantFrom('rank', 'name', 'rain_mm', 'Loc #')),
    pinned: fc.uniqueArray(fc.constantFrom('rank', 'name')),
    units: fc.constantFrom('metric', 'american'),
    sheet: fc.constantFrom(...sheets),
    own: fc.boolean(),
  } as const)
  .map((s) => ({ ...s, opened: s.opened && s.selected !== null }));

describe('the address', () => {
  it('brings back every state it was written from', () => {
    fc.assert(
      fc.property(anyState, (s) => {
        expect(fromFragment(toFragment(s))).toEqual(s);
      }),
    );
  });

  it('of the first state says only the view', () => {
    expect(toFragment(firstState)).toBe('#/rank');
    expect(fromFragment('')).toEqual(firstState);
  });

  it('that is not understood opens the first state', () => {
    const odd =
      '#/nowhere?by=luck&sort=;drop&tier=Worst&height_used_m=tall&index=4..5..6&address=x&colour=red&b=-3&open=1&units=cubits&sheet=neon';
    expect(fromFragment(odd)).toEqual(firstState);
  });

  it('never opens a building that is not named', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const s = fromFragment(text);
        expect(s.opened && s.selected === null).toBe(false);
      }),
    );
  });

  it('makes a step of history of a view or an opened building, not of a filter or a selection', () => {
    expect(isStep(firstState, patch({ view: 'Method' })(firstState))).toBe(true);
    expect(isStep(firstState, openBuilding(3)(firstState))).toBe(true);
    expect(isStep(firstState, setSearch('elm')(firstState))).toBe(false);
    expect(isStep(firstState, patch({ selected: 4 })(firstState))).toBe(false);
  });
});

describe('changes', () => {
  it('a filter value ticked twice is as if never ticked', () => {
    fc.assert(
      fc.property(anyState, fc.constantFrom(...tiers), (s, tier) => {
        const twice = toggleAmong('tier', tier)(toggleAmong('tier', tier)(s));
        const words = (state: PageState) => [...amongOf(state.filters, 'tier')].sort();
        expect(words(twice)).toEqual(words(s));
      }),
    );
  });

  it('*no record* is a value that can be filtered for', () => {
    const s = toggleAmong('region', null)(firstState);
    expect(queryOf(s).on).toEqual({ region: { among: [null] } });
  });

  it('a heading sorts, reverses on the second click, and goes back to the ranking on the third', () => {
    const first = nextSort(null, 'rain_mm', true);
    const second = nextSort(first, 'rain_mm', true);
    expect(first).toEqual({ column: 'rain_mm', descending: true });
    expect(second).toEqual({ column: 'rain_mm', descending: false });
    expect(nextSort(second, 'rain_mm', true)).toBeNull();
  });

  it('another heading starts anew in its own direction', () => {
    const s = sortBy('name', false)(sortBy('rain_mm', true)(firstState));
    expect(s.sort).toEqual({ column: 'name', descending: false });
  });

  it('a new ranking ends a sort by column', () => {
    expect(rankBy('wetting')(sortBy('name', false)(firstState)).sort).toBeNull();
  });

  it('clearing the filters keeps the ranking, the selection and the units', () => {
    fc.assert(
      fc.property(anyState, (s) => {
        expect(clearFilters(s)).toEqual({ ...s, filters: noFilters });
      }),
    );
  });

  it('closing a building keeps it selected', () => {
    const s = closeBuilding(openBuilding(7)(firstState));
    expect([s.opened, s.selected]).toEqual([false, 7]);
  });

  it('other files drop whatever pointed into the old ones, and keep units and sheet', () => {
    fc.assert(
      fc.property(anyState, fc.boolean(), (s, own) => {
        const after = otherFiles(own)(s);
        expect(after.selected).toBeNull();
        expect(after.filters).toEqual(noFilters);
        expect([after.units, after.sheet, after.view, after.own]).toEqual([
          s.units,
          s.sheet,
          s.view,
          own,
        ]);
      }),
    );
  });
});

describe('the question put to the analysis', () => {
  it('a question once put does not change with the state', () => {
    const s = { ...firstState, filters: { on: { region: { among: ['WA'] } }, search: '' } };
    const put = queryOf(s);
    s.filters.on.region.among[0] = 'BC';
    expect(put.on).toEqual({ region: { among: ['WA'] } });
  });

  it('leaves out every filter that is not set', () => {
    expect(queryOf(firstState)).toEqual({ by: 'index' });
  });

  it('carries every filter that is set, with the search trimmed', () => {
    const s = [
      toggleAmong('tier', 'First look'),
      setCondition('height_used_m', { from: 10, below: 15 }),
      setSearch(' elm '),
    ].reduce((state, change) => change(state), firstState);
    expect(queryOf(s)).toEqual({
      by: 'index',
      on: { tier: { among: ['First look'] }, height_used_m: { from: 10, below: 15 } },
      search: 'elm',
    });
  });

  it('height bands meet without gap or overlap', () => {
    for (let i = 1; i < heightBands.length; i += 1)
      expect(heightBands[i]?.from).toBe(heightBands[i - 1]?.below);
    expect(heightBands[0]?.from).toBeUndefined();
    expect(heightBands.at(-1)?.below).toBeUndefined();
  });
});
