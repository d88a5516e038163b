import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { makeRegions } from '../../data/regions/make.ts';

const typed = readFileSync(new URL('../../data/regions/typed.csv', import.meta.url), 'utf8');

test('data/regions.csv is what its script makes of the outlines and the typed table', async () => {
  await expect(makeRegions(typed)).toMatchFileSnapshot('../../data/regions.csv');
});
