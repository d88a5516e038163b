import { describe, expect, it } from 'vitest';
import type { Analyst, Inputs } from '../../analysis/session-types.ts';
import { createSession } from '../../dashboard/state/session.ts';

/** An analyst that only counts: how many runs are going on at once, and under which settings. */
function counting() {
  const runs: unknown[] = [];
  let going = 0;
  let most = 0;
  const run = async <T>(what: unknown, result: T): Promise<T> => {
    going += 1;
    most = Math.max(most, going);
    runs.push(what);
    await new Promise((done) => setTimeout(done, 5));
    going -= 1;
    return result;
  };
  const analyst = {
    open: () => run('open', { demo: false, files: [] }),
    rescore: (changes: unknown) => run(changes, { firstTwenty: 0, tier: 0 }),
    frame: async () => ({ n: 0 }),
  } as unknown as Analyst;
  return { analyst, runs, most: () => most };
}

const load = (value: number) => ({ constants: { half_load_l_m2: value } });

describe('scoring again', () => {
  it('is done one run at a time, and of those that wait only the newest', async () => {
    const { analyst, runs, most } = counting();
    const session = createSession(analyst);
    const opening = session.open({ buildings: {} as never }, 'a file');
    const waiting = [60, 70, 80].map((value) => session.rescore(load(value)));
    expect(session.rescoring()).toBe(true);
    await Promise.all([opening, ...waiting]);
    expect(runs).toEqual(['open', load(80)]);
    expect(most()).toBe(1);
    expect(session.rescoring()).toBe(false);
    expect(session.changes()).toEqual(load(80));
  });

  it('outlives a correction, which reads the files again', async () => {
    const { analyst } = counting();
    const opened: Inputs[] = [];
    const open: Analyst['open'] = (inputs) => {
      opened.push(inputs);
      return analyst.open(inputs);
    };
    const session = createSession({ ...analyst, open });
    await session.open({ buildings: {} as never, settings: load(60) }, 'a file');
    await session.rescore(load(80));
    await session.correct([], () => {});
    expect(opened.map(({ settings }) => settings)).toEqual([load(60), load(80)]);
    expect(session.changes()).toEqual(load(80));
  });
});
