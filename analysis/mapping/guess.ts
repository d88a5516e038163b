import { candidatesIn } from './candidates.ts';
import type { ColumnMap, Guess, GuessedMap, MappedColumn, SheetSample } from './column-map.ts';
import { profilesOf } from './profile.ts';
import { type Fill, type Settled, shaped } from './shape.ts';
import { withIdentifier } from './stand-in.ts';
import { withHeightUnit } from './storey-height.ts';
import { unmatchedValues } from './unmatched.ts';

export { unmatchedValues } from './unmatched.ts';

const columnOf = (heading: string, fill: Fill | undefined): MappedColumn => ({
  heading: heading.trim(),
  fills: fill ? { table: fill.table, column: fill.column } : null,
  unit: fill?.from.unit ?? null,
  wall: fill?.wall ?? null,
});

const rounded = (confidence: number): number => Math.round(100 * confidence) / 100;

/** Only the contract's own heading is certain. */
const guessOf = (fill: Fill | undefined): Guess =>
  fill
    ? {
        confidence: fill.from.confidence === 1 ? 1 : Math.min(0.99, rounded(fill.from.confidence)),
        why: fill.from.why,
      }
    : { confidence: 0, why: 'kept as it is: neither its name nor its values say what it is' };

const missingWords = {
  id: (file: string) =>
    `No column of ${file} was found that names each building (building_id). Choose one.`,
  place: (file: string) =>
    `No columns of ${file} were found that say where the buildings stand: latitude and longitude, or postal_code. Choose them.`,
  material: (file: string) =>
    `No column of ${file} was found that says what the walls are clad with (material). Choose one.`,
};

/** What the sheet needs and no column of it fills, a sentence each. */
function missingFrom(file: string, { of, fills, groups }: Settled): string[] {
  const has = (...columns: readonly string[]) =>
    columns.every((column) => fills.some((fill) => fill.column === column));
  const places = of === 'wall' || has('postal_code') || has('latitude', 'longitude');
  const material =
    of === 'building' || has('material') || groups.some(({ says }) => says.material !== undefined);
  return [
    ...(has('building_id') ? [] : [missingWords.id(file)]),
    ...(places ? [] : [missingWords.place(file)]),
    ...(material ? [] : [missingWords.material(file)]),
  ];
}

/**
 * Guesses how a sheet is read, from its headings, from the units they name and from its first values. The order of the
 * columns does not matter. Asked for `buildings`, the sheet may hold walls besides; asked for `any`, it may be a list of
 * walls alone.
 */
export function guessMap(sample: SheetSample, wanted: 'buildings' | 'walls' | 'any'): GuessedMap {
  const profiles = profilesOf(sample);
  const found = shaped(candidatesIn(profiles, sample), wanted);
  const settled = withHeightUnit(withIdentifier(found, profiles), sample.decimalComma);
  const at = new Map(settled.fills.map((fill) => [fill.from.profile.position, fill]));
  const map: ColumnMap = {
    shape: settled.shape,
    columns: sample.headings.map((heading, i) => columnOf(heading, at.get(i))),
    groups: settled.groups,
    words: {},
  };
  return {
    map,
    guesses: sample.headings.map((_, i) => guessOf(at.get(i))),
    missing: missingFrom(sample.file, settled),
    unmatched: unmatchedValues(sample, map),
  };
}
