import type { Random } from '../../analysis/sample/random.ts';
import { buildingHeadings } from './building-records.ts';
import { pick, shuffled } from './random.ts';
import type { Cells } from './records.ts';
import type { Building } from './scenario.ts';
import { mistakes } from './tables.ts';
import { wallHeadings } from './wall-records.ts';

/** Below this many buildings a mistake may be missing; from it on each kind is there at least once. */
const fewest = 100;

const countOf = (n: number, perThousand: number): number =>
  Math.max(n >= fewest ? 1 : 0, Math.round((n * perThousand) / 1000));

/** A repeat copies the row before, which then has no mistake of its own. */
function fits(
  mistake: string,
  i: number,
  b: Building,
  dealt: ReadonlyMap<number, string>,
): boolean {
  if (dealt.has(i) || dealt.get(i + 1) === 'repeat_id') return false;
  if (mistake === 'repeat_id') return i > 0 && !dealt.has(i - 1);
  return mistake !== 'postal_only' || b.development.town.country === 'US';
}

/** Which building meets which mistake of data entry (dirt.csv): at most one each. */
export function dealt(random: Random, list: readonly Building[]): Map<number, string> {
  const pool = shuffled(random, [...list.keys()]);
  const dealt = new Map<number, string>();
  for (const [mistake, perThousand] of mistakes) {
    let left = countOf(list.length, perThousand);
    for (let k = 0; k < pool.length && left > 0; k++) {
      const i = pool[k]!;
      if (!fits(mistake, i, list[i]!, dealt)) continue;
      dealt.set(i, mistake);
      left -= 1;
    }
  }
  return dealt;
}

type Spoil = (cells: Cells, random: Random) => void;

const at = (name: (typeof buildingHeadings)[number]): number => buildingHeadings.indexOf(name);
const latitude = at('latitude');
const longitude = at('longitude');

/** Writes fixed words into one cell. */
const says =
  (column: number, texts: readonly string[]): Spoil =>
  (cells, random) => {
    cells[column] = pick(random, texts);
  };

const placed =
  (x: string, y: string): Spoil =>
  (cells) => {
    cells[longitude] = x;
    cells[latitude] = y;
  };

const onBuilding: Readonly<Record<string, Spoil>> = {
  swapped: (cells) => placed(cells[latitude]!, cells[longitude]!)(cells, { word: () => 0 }),
  lost_minus: (cells) => {
    cells[longitude] = cells[longitude]!.replace('-', '');
  },
  future_year: (cells) => {
    const year = Number(cells[at('year_built')]) + 100;
    cells[at('year_built')] = String(year > 2026 ? year : 2062);
  },
  words_for_storeys: says(at('storeys'), ['two', 'three and attic', '2 + basement']),
  words_for_area: says(at('wall_area_m2'), ['see plan', 'approx 400', 'to be measured']),
  words_for_year: says(at('year_built'), ['c. 1970', 'seventies', 'before the fire']),
  postal_only: placed('', ''),
  nowhere: (cells) => {
    cells[longitude] = cells[latitude] = cells[at('postal_code')] = '';
  },
  zero_place: placed('0', '0'),
};

/** Puts a mistake into the row of a building, if it is of that sort. */
export function spoilBuilding(mistake: string | undefined, cells: Cells, random: Random): void {
  if (mistake) onBuilding[mistake]?.(cells, random);
}

const wallAt = (name: (typeof wallHeadings)[number]): number => wallHeadings.indexOf(name);

/** Puts a mistake into the wall records of a building, or adds a record: what a sold building leaves behind. */
export function spoilWalls(mistake: string | undefined, rows: Cells[]): Cells[] {
  const [first, ...rest] = rows;
  if (!first) return rows;
  if (mistake === 'orphan_walls')
    return [...rows, first.with(0, `${first[0]!.slice(0, 4)}SOLD-${first[0]!.slice(4)}`)];
  if (mistake === 'future_wall') return [first.with(wallAt('installed'), '2031'), ...rest];
  return rows;
}
