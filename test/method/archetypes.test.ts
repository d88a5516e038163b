import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { findRegion } from '../../analysis/place/regions.ts';
import { tiers } from '../../analysis/session-types.ts';
import archetypesCsv from '../../data/archetypes.csv?raw';
import { type Facts, run } from './case.ts';

// Source of the expectations: data/archetypes.csv, written by a practitioner's hand that had not seen the code.
const archetypes = Papa.parse<Record<string, string>>(archetypesCsv, {
  header: true,
  skipEmptyLines: true,
}).data;

const fact = (text: string | undefined): string | number | null => {
  if (!text) return null;
  return Number.isFinite(Number(text)) ? Number(text) : text;
};

function factsOf(row: Record<string, string>, names: string): Facts {
  return Object.fromEntries(names.split(' ').map((name) => [name, fact(row[name])]));
}

const cases = archetypes.map((row) => {
  const region = findRegion(row.region ?? '');
  return {
    building: {
      ...factsOf(
        row,
        'region rain_mm mean_temp_c moisture_index hdd18_c use storeys height_m terrain roof',
      ),
      climate_zone: row.climate_zone || null,
      country: region?.country ?? null,
      marine_possible: region?.marine_possible ?? null,
    },
    walls: [factsOf(row, 'runoff material drainage gap_mm drainage_eff_pct sheathing installed')],
  };
});

describe('no default lands where two practitioners would laugh', async () => {
  const { buildings } = await run(cases);
  test.each(archetypes.map((row, i) => [row.id!, row, i] as const))('%s', (_, row, i) => {
    const { tier, index, reason } = buildings[i]!;
    const found = tiers[tier as number];
    expect(
      row.expected!.split('|'),
      `${row.description}: index ${index}, ${reason ?? ''}`,
    ).toContain(found);
  });
});
