import { type Random, seeded } from '../../analysis/sample/random.ts';
import { buildingCells, buildingHeadings } from './building-records.ts';
import { dealt, spoilBuilding, spoilWalls } from './dirt.ts';
import { between } from './random.ts';
import { type Cells, line } from './records.ts';
import { type Building, buildings } from './scenario.ts';
import { wallHeadings, wallRecords } from './wall-records.ts';

export interface DemoOptions {
  /** Rows of the building list. */
  readonly buildings?: number;
  /** Whole number; the same seed makes the same bytes in every engine. */
  readonly seed?: number;
}

/** The invented portfolio as two CSV files, and the sentence that has to stand beside them. */
export interface Demo {
  readonly buildingsCsv: string;
  readonly wallsCsv: string;
  readonly about: string;
}

const about = (buildings: number, seed: number): string =>
  `Invented scenario: the Larkwether Housing Trust, its ${buildings} buildings, streets, people and records are made up (seed ${seed}), mistakes included. Only the towns are real; places lie near the centres of postal codes (GeoNames, CC-BY-4.0) and mark no real building.`;

/** A building entered twice: an earlier row with another value. */
function twice(random: Random, earlier: Cells): Cells {
  return earlier.with(
    buildingHeadings.indexOf('insured_value'),
    `${between(random, 300, 4000)}000`,
  );
}

interface Files {
  readonly buildings: string[];
  readonly walls: string[];
}

/** Appends the rows of one building; returns its row as written. */
function append(
  files: Files,
  random: Random,
  b: Building,
  row: number,
  mistake: string | undefined,
  before: Cells,
): Cells {
  if (mistake === 'repeat_id') {
    files.buildings.push(line(twice(random, before)));
    return before;
  }
  const cells = buildingCells(random, b, row);
  spoilBuilding(mistake, cells, random);
  files.buildings.push(line(cells));
  files.walls.push(...spoilWalls(mistake, wallRecords(random, b)).map(line));
  return cells;
}

/**
 * The demo portfolio of an invented housing trust in North America, with the gaps and mistakes that such lists have:
 * about four wall records a building, blanks in 15 to 30 % of the assembly facts, and the mistakes of dirt.csv.
 * No clock and no other chance than the seed.
 */
export function generateDemo({ buildings: n = 400, seed = 2026 }: DemoOptions): Demo {
  const random = seeded(seed);
  const list = buildings(random, n);
  const mistakes = dealt(random, list);
  const files: Files = {
    buildings: [line([...buildingHeadings])],
    walls: [line([...wallHeadings])],
  };
  let before: Cells = [];
  list.forEach((b, i) => {
    before = append(files, random, b, i + 1, mistakes.get(i), before);
  });
  return {
    buildingsCsv: files.buildings.join(''),
    wallsCsv: files.walls.join(''),
    about: about(n, seed),
  };
}
