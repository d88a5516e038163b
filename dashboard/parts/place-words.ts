import type { Value } from './format.ts';

/** `HX-0012, Astoria, OR` beside a name; without one the id is the name and is left out. */
export const placeWords = (row: Readonly<Record<string, Value>>): string =>
  [row.name ? 'building_id' : '', 'city', 'region']
    .map((column) => String(row[column] ?? ''))
    .filter((part) => part !== '')
    .join(', ');
