import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { ruleAnswers } from '../method/case.ts';

// The tables were written from the text of the method by a hand that had not seen the rules or the code.
const folder = join(import.meta.dirname, 'truth');
const files = readdirSync(folder).filter((name) => name.endsWith('.csv'));

const numeric = new Set(
  'storeys mean_temp_c rain_mm p_rain_over_threshold moisture_index hdd18_c latitude'.split(' '),
);
const fact = (name: string, text: string): string | number | null => {
  if (text === '') return null;
  return numeric.has(name) ? Number(text) : text;
};

describe.each(files)('%s', (file) => {
  const rows = Papa.parse<Record<string, string>>(readFileSync(join(folder, file), 'utf8'), {
    header: true,
    skipEmptyLines: true,
  }).data;

  test(`answers all ${rows.length} combinations as its table says`, async () => {
    const cases = rows.map(({ case: _, expected: __, material, sheathing, ...facts }) => {
      const named = Object.entries(facts).map(([name, text]) => [name, fact(name, text ?? '')]);
      const building = Object.fromEntries(named);
      building.p_rain_over_threshold ??= null;
      return { building, walls: [{ material: material || null, sheathing: sheathing || null }] };
    });
    const found = await ruleAnswers(cases, file.replace('.csv', ''));
    const wrong = rows.flatMap((row, i) =>
      row.expected === found[i] ? [] : [`${row.case}: ${found[i]}, not ${row.expected}`],
    );
    expect(wrong).toEqual([]);
  });
});
