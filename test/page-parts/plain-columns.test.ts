import { describe, expect, it } from 'vitest';
import { siftColumns } from '../../analysis/sift/columns.ts';
import { copiedText } from '../../dashboard/rank/columns/copy.ts';
import {
  chosenColumns,
  headingOf,
  mostPinned,
  plainColumns,
  stayingColumns,
} from '../../dashboard/rank/columns/plain-columns.ts';

const names = (columns: readonly { readonly name: string }[]) => columns.map(({ name }) => name);
const shown = { columns: [], pinned: [], units: 'metric', selected: null } as const;

describe('the columns of the plain rows', () => {
  it('may be sorted by only where the ranking can be', () => {
    const sorted = [...plainColumns.values()].filter(({ sorts }) => sorts);
    expect(names(sorted).filter((name) => !siftColumns.has(name))).toEqual([]);
  });

  it('show the pinned ones first, each once, and drop what the table does not have', () => {
    const chosen = chosenColumns(['index', 'name', 'colour', 'rank'], ['name', 'region']);
    expect(names(chosen.pinned)).toEqual(['name']);
    expect(names(chosen.free)).toEqual(['index', 'rank']);
  });

  it('are those first shown where none is chosen', () => {
    expect(names(chosenColumns([], []).pinned)).toContain('rank');
    expect(chosenColumns(['colour'], [])).toEqual(chosenColumns([], []));
  });

  it('stay in their order while they leave the others room, on any width', () => {
    const { pinned } = chosenColumns(
      ['rank', 'tier', 'reason', 'region'],
      ['rank', 'tier', 'reason', 'region'],
    );
    const width = (columns: readonly { readonly width: number }[]) =>
      columns.reduce((sum, column) => sum + column.width, 0);
    for (let table = 0; table <= 2000; table += 1) {
      const staying = stayingColumns(pinned, table);
      expect(staying).toEqual(pinned.slice(0, staying.length));
      expect(width(staying)).toBeLessThanOrEqual(mostPinned * table);
      const next = pinned[staying.length];
      if (next) expect(width(staying) + next.width).toBeGreaterThan(mostPinned * table);
    }
    expect(names(stayingColumns(pinned, 2000))).toEqual(names(pinned));
  });

  it('name the unit in use', () => {
    expect(headingOf('wetting_l_m2', 'metric')).toBe('Wetting, L/m² yr');
    expect(headingOf('wetting_l_m2', 'american')).toBe('Wetting, gal/ft² yr');
    expect(headingOf('region', 'metric')).toBe('Region');
  });
});

describe('rows that are copied', () => {
  const row = {
    rank: 3,
    name: '=HYPERLINK("x")',
    tier: 'First look',
    index: -1.5,
    reason: 'two\tlines\nof text',
    caution: 'SCREENING-NOT-DIAGNOSIS',
  };

  it('carry the caution, chosen or not', () => {
    const [head, line] = copiedText([row], { ...shown, columns: ['rank', 'name'] }).split('\n');
    expect(head).toBe('rank\tname\tcaution');
    expect(line?.split('\t').at(-1)).toBe('SCREENING-NOT-DIAGNOSIS');
  });

  it('hold no formula that would run, no tab and no line break; a negative number stays one', () => {
    const columns = ['name', 'index', 'reason'];
    const lines = copiedText([row], { ...shown, columns }).split('\n');
    expect(lines).toHaveLength(2);
    const [name, index, reason] = lines[1]!.split('\t');
    expect(name).toBe(`'=HYPERLINK("x")`);
    expect(index).toBe('-1.5');
    expect(reason).toBe('two lines of text');
  });
});
