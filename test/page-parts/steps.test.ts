import { describe, expect, it } from 'vitest';
import {
  patch,
  setCondition,
  setSearch,
  sortBy,
  toggleAmong,
} from '../../dashboard/state/changes.ts';
import { firstState, type PageState } from '../../dashboard/state/page-state.ts';
import {
  askedOf,
  noSteps,
  redone,
  type Steps,
  stepped,
  undone,
} from '../../dashboard/state/steps.ts';

/** A state and its steps after changes made one after the other. */
const made = (...changes: ((s: PageState) => PageState)[]): { s: PageState; steps: Steps } =>
  changes.reduce(
    ({ s, steps }, change) => {
      const next = change(s);
      return { s: next, steps: stepped(steps, askedOf(s), askedOf(next)) };
    },
    { s: firstState, steps: noSteps },
  );

describe('undo and redo', () => {
  it('take back filters, order and sort one by one, and give them again', () => {
    const changes = [
      toggleAmong('tier', 'First look'),
      setCondition('index', { from: 40 }),
      sortBy('rain_mm', true),
    ];
    const { s, steps } = made(...changes);
    const one = undone(steps, askedOf(s))!;
    expect(one.asked.sort).toBeNull();
    expect(one.asked.filters.on).toEqual({
      tier: { among: ['First look'] },
      index: { from: 40 },
    });
    const two = undone(one.steps, one.asked)!;
    const three = undone(two.steps, two.asked)!;
    expect(three.asked).toEqual(askedOf(firstState));
    expect(undone(three.steps, three.asked)).toBeNull();
    const again = redone(
      redone(redone(three.steps, three.asked)!.steps, two.asked)!.steps,
      one.asked,
    )!;
    expect(again.asked).toEqual(askedOf(s));
    expect(redone(again.steps, again.asked)).toBeNull();
  });

  it('do not count what is not asked: the view, the selection, the units', () => {
    const { steps } = made(
      patch({ view: 'Method' }),
      patch({ selected: 3 }),
      patch({ units: 'american' }),
    );
    expect(steps).toEqual(noSteps);
  });

  it('take letters typed into the search as one step, apart from what came before', () => {
    const { s, steps } = made(
      toggleAmong('region', 'OR'),
      setSearch('e'),
      setSearch('el'),
      setSearch('elm'),
    );
    const back = undone(steps, askedOf(s))!;
    expect(back.asked.filters).toEqual({ on: { region: { among: ['OR'] } }, search: '' });
  });

  it('forget what was taken back once something else is asked', () => {
    const { s, steps } = made(setSearch('elm'), toggleAmong('region', 'OR'));
    const back = undone(steps, askedOf(s))!;
    const next = { ...back.asked, by: 'high' } as const;
    expect(stepped(back.steps, back.asked, next).future).toEqual([]);
  });
});
