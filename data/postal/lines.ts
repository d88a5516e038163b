import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

/**
 * Lines of npm vega-datasets `zipcodes.csv` without its headings: zip_code, latitude, longitude, city, state, county; only
 * the county is ever quoted.
 */
export function readLines(): string[] {
  const entry = createRequire(import.meta.url).resolve('vega-datasets');
  const text = readFileSync(join(dirname(entry), '../data/zipcodes.csv'), 'utf8');
  return text.trim().split('\n').slice(1);
}
