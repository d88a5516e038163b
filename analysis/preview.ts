import { type Columns, rowObject } from './columns.ts';
import type { Assets } from './inputs.ts';
import type { ColumnMap } from './mapping/column-map.ts';
import { guessMap, unmatchedValues } from './mapping/guess.ts';
import { mapFor } from './mapping/kept.ts';
import { missingSentence } from './mapping/refuse.ts';
import { sampleSheet } from './mapping/sample.ts';
import { listedBuildings } from './read/buildings.ts';
import type { ByteSource } from './read/outcome.ts';
import { sheetNames } from './read/records.ts';
import { readWalls } from './read/walls.ts';
import type { Preview, SheetReading } from './session-types.ts';

/** Records shown before anything is committed. */
const shownRecords = 8;

type Wanted = 'buildings' | 'walls' | 'any';

const rowsOf = (table: Columns): Record<string, number | string | null>[] =>
  Array.from({ length: table.n }, (_, i) => rowObject(table, i));

/** Guesses how a file is read, or takes the map given, and reads its first records so. */
export async function previewSheet(
  source: ByteSource,
  wanted: Wanted,
  { map, sheet }: SheetReading,
  maps: readonly ColumnMap[],
  { postal }: Assets,
  asOf: number,
): Promise<Preview> {
  const sample = await sampleSheet(source, { sheet });
  const guess = guessMap(sample, wanted);
  const kept = mapFor(maps, sample.headings);
  const used = map ?? kept;
  const guessed = used ? { ...guess, map: used, unmatched: unmatchedValues(sample, used) } : guess;
  const table = guessed.map.shape === 'walls' ? 'walls' : 'buildings';
  const missing = missingSentence(sample, guessed.map, wanted === 'any' ? table : wanted);
  const options = { asOf, sheet, limit: shownRecords, map: guessed.map };
  const holdsBuildings = guessed.map.shape !== 'walls' && !missing;
  const building = holdsBuildings ? await listedBuildings(source, { ...options, postal }) : null;
  const wall =
    !missing && holdsWalls(guessed.map)
      ? await readWalls(source, { ...options, buildingIds: null })
      : null;
  return {
    file: source.name,
    sheets: await sheetNames(source),
    sample: { ...sample, rows: sample.rows.slice(0, shownRecords) },
    guessed,
    from: map ? 'given' : kept ? 'kept' : 'guessed',
    missing,
    rows: {
      building: building ? rowsOf(building.table) : [],
      wall: wall ? rowsOf(wall.table) : [],
    },
  };
}

const holdsWalls = ({ shape }: ColumnMap): boolean => shape !== 'buildings';
