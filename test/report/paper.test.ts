import { describe, expect, test } from 'vitest';
import { memorySource } from '../../analysis/read/memory-source.ts';
import type { RainReport } from '../../analysis/session-types.ts';
import { missingOf } from '../../dashboard/building/facts.ts';
import {
  cssString,
  footingOf,
  footingProperties,
  inventedMark,
} from '../../dashboard/report/footing.ts';
import { originOf } from '../../dashboard/report/origin.ts';
import { listed } from '../../dashboard/report/report-data.ts';
import { needClause, shareWords } from '../../dashboard/report/words.ts';

const rain: RainReport = {
  source: 'a grid',
  period: '1991-2020',
  adjusted: false,
  sentence: 'Rain is the grid’s.',
  stations: 0,
  parameters: {},
  checks: [],
};

const file = (name: string) => ({
  file: name,
  role: 'buildings' as const,
  records: 3,
  rowsRead: 3,
  accepted: 2,
  joined: 0,
  setAside: 1,
  noted: 0,
  unknownColumns: [],
  map: null,
  notes: [],
});

const origin = (demo: boolean, files: readonly string[] = ['list.csv']) =>
  originOf(
    {
      inputs: { buildings: memorySource('list.csv', '') },
      report: { demo, files: files.map(file) },
    },
    { 'list.csv': 'ab'.repeat(32) },
    { constants: { as_of: 2031, weight_load: 2 } },
    rain,
  );

describe('the margins of every page', () => {
  test('name software, method, year, rain, files with the head of their digests, and what was changed', () => {
    const foot = footingOf('Report', origin(false), '2031-02-03').foot.join('\n');
    for (const part of [/Rainledger \d+\.\d+/, /method \d/, /as of 2031/, /a grid, 1991-2020/])
      expect(foot).toMatch(part);
    expect(foot).toContain('list.csv (abababababab…)');
    expect(foot).toContain('2 constants');
    expect(foot).toContain('Printed on 2031-02-03');
  });

  test('mark the invented example, and nothing else', () => {
    expect(footingOf('Report', origin(true), '').mark).toBe(inventedMark);
    expect(footingOf('Report', origin(false), '').mark).toBe('');
  });

  test('name three files and count the rest, each file once', () => {
    const [, files] = footingOf('', origin(false, ['a', 'b', 'b', 'c', 'd', 'e']), '').foot;
    expect(files).toContain('Files: a, b, c and 2 more.');
  });

  test('no name of a building can end the string it stands in', () => {
    expect(cssString('a "b" \\ c')).toBe('"a \\"b\\" \\\\ c"');
    expect(cssString('two\nlines')).toBe('"two\\a lines"');
    const [title] = footingProperties({ title: '";}', mark: '', foot: [] });
    expect(title).toEqual(['--paper-title', '"\\";}"']);
  });
});

test('each changed setting is told with what ships', () => {
  expect(origin(false).settings).toContain('weight_load 2 (ships as 1)');
});

test('a file that cannot be read any more keeps its line without a digest', () => {
  expect(origin(false, ['lost.csv']).files[0]).toMatchObject({ file: 'lost.csv', sha256: null });
});

test('a short list is printed whole, of a long one the first fifty', () => {
  expect([0, 1, 50, 100, 101, 1_000_000].map(listed)).toEqual([0, 1, 50, 100, 50, 50]);
});

describe('what is not on record', () => {
  const row = { unknowns: 'sheathing;terrain', share_sheathing: 0.9, share_terrain: 0.002 };

  test('keeps the order of the analysis and asks the question that the facts’ table asks', () => {
    const missing = missingOf(row);
    expect(missing.map(({ fact }) => fact)).toEqual(['sheathing', 'terrain']);
    expect(missing[0]!.question).toMatch(/sheathing.*\?$/);
  });

  test('a share is an estimate: never nothing, never all', () => {
    expect([0.002, 0.41, 0.999].map(shareWords)).toEqual(['under 1 %', '41 %', 'over 99 %']);
  });

  test('nothing missing is an empty list', () => {
    expect(missingOf({ unknowns: '' })).toEqual([]);
  });
});

test('a need reads as a clause: the verdict, and in brackets who asks or what is missing', () => {
  expect(needClause('does not ask')).toBe('does not ask');
  expect(needClause('cannot tell: hdd18_c')).toBe('cannot tell (heating degree-days)');
  expect(needClause('asks: practice-rainy')).toMatch(/^asks/);
  expect(needClause(null)).toBe('no record');
});
