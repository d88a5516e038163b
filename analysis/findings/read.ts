import { plainHeading } from '../mapping/heading-words.ts';
import type { Plan, PlannedCell } from '../mapping/plan.ts';
import { sampleSheet } from '../mapping/sample.ts';
import { type ByteSource, type ReadTable, Refusal } from '../read/outcome.ts';
import { type ReadOptions, readTable } from '../read/table.ts';
import { findingColumns, findingNeeds } from './columns.ts';
import { findingJudge, type KnownWalls } from './judge.ts';

export interface FindingOptions extends ReadOptions {
  /** Accepted walls by accepted building. */
  readonly walls: KnownWalls;
}

const cellAt = (position: number, heading: string): PlannedCell => ({
  position,
  heading,
  factor: 1,
  offset: 0,
  unit: null,
  words: null,
});

function refuse(file: string, headings: readonly string[]): void {
  const names = headings.map(plainHeading);
  const twice = findingColumns.find(({ name }) => names.indexOf(name) !== names.lastIndexOf(name));
  if (twice) {
    const says = `${file} has the heading "${twice.name}" more than once, so it cannot be told which one counts. Rename or remove the others.`;
    throw new Refusal(file, says);
  }
  const missing = findingNeeds.find(
    (ways) => !ways.some((way) => way.every((name) => names.includes(name))),
  );
  if (!missing) return;
  const wanted = missing.map((way) => `"${way.join('" and "')}"`).join(' or ');
  const says = `${file} has no heading ${wanted}, so it cannot be read as findings. Headings found: ${headings.slice(0, 40).join(', ')}. Add or rename the heading in the first row.`;
  throw new Refusal(file, says);
}

/** How a file with these headings is read: by the contract's own names, whatever the case; the rest is kept as text. */
function planFindings(file: string, headings: readonly string[]): Plan {
  refuse(file, headings);
  const names = headings.map(plainHeading);
  const known = new Set(findingColumns.map(({ name }) => name));
  return {
    cells: findingColumns.map(({ name }) => {
      const position = names.indexOf(name);
      return position < 0 ? null : cellAt(position, headings[position]!);
    }),
    heldBy: [],
    wall: null,
    extras: headings.flatMap((name, position) =>
      known.has(names[position]!)
        ? []
        : [{ name: name || `column_${position + 1}`, position, unnamed: name === '' }],
    ),
  };
}

/**
 * Reads findings: every row is accepted or set aside with its reason (`findingJudge`); several of one wall are all kept.
 * Throws a `Refusal` when the file is no table of findings.
 */
export async function readFindings(
  source: ByteSource,
  options: FindingOptions,
): Promise<ReadTable> {
  const { headings } = await sampleSheet(source, options);
  const form = { rules: findingColumns, judge: findingJudge(options.walls) };
  return readTable(source, form, [planFindings(source.name, headings)], options);
}
