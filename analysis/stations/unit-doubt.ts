import { unitOf } from '../rain/heading.ts';
import { Refusal } from '../read/outcome.ts';
import type { NormalColumn } from './layout.ts';
import type { Candidate } from './merge.ts';

/** A file with every normal beyond one of these, mm a year, is doubted: deserts and the wettest hills apart, none is. */
const doubtful = { below: 100, above: 10_000 } as const;
/** Ratio of such normals to the grid from which their unit is questioned: in a desert they agree. */
const leastRatio = 5;

/** Units that are mistaken for one another, with what to call them. */
const units = [
  { heading: 'mm', words: 'millimetres' },
  { heading: 'cm', words: 'centimetres' },
  { heading: 'in', words: 'inches' },
  { heading: 'm', words: 'metres' },
] as const;

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)]!;
}

const apart = (ratio: number): number => Math.abs(Math.log(ratio));

/**
 * Refuses a file of whose normals all are under 100 mm or all over 10,000 mm a year, and unlike the grid: their heading
 * names the wrong unit. The sentence asks for the unit in which they would be most like the grid.
 */
export function questionUnit(
  file: string,
  { heading, unit, mmPerYear }: NormalColumn,
  rows: readonly Candidate[],
): void {
  const small = rows.every(({ mm }) => mm < doubtful.below);
  const large = rows.every(({ mm }) => mm > doubtful.above);
  const known = rows.filter(({ gridMm }) => gridMm > 0);
  if (!(small || large) || known.length === 0) return;
  const ratio = median(known.map(({ mm, gridMm }) => mm / gridMm));
  if (apart(ratio) < Math.log(leastRatio)) return;
  const likeness = (name: string) => apart((ratio * unitOf(name)!.mmPerYear) / mmPerYear);
  const best = units.toSorted((a, b) => likeness(a.heading) - likeness(b.heading))[0]!;
  const limit = small ? `under ${doubtful.below} mm` : `over ${doubtful.above} mm`;
  throw new Refusal(
    file,
    `Read in ${unit}, as the heading “${heading}” says, all ${rows.length} normals of ${file} are ${limit} a year, and the grid says otherwise: are these ${best.words}? If so, name the column normal_${best.heading}.`,
  );
}
