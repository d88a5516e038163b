import { Refusal } from '../read/outcome.ts';
import {
  buildingColumns,
  buildingNeeds,
  type Needs,
  wallColumns,
  wallNeeds,
} from '../read/schema.ts';
import type { ColumnMap, SheetSample } from './column-map.ts';
import { plainHeading } from './heading-words.ts';

type Wanted = 'buildings' | 'walls';

const needsOf: Readonly<Record<Wanted, Needs>> = { buildings: buildingNeeds, walls: wallNeeds };
const tableOf = { buildings: 'building', walls: 'wall' } as const;

const quoted = (names: readonly string[]): string => names.map((name) => `"${name}"`).join(' and ');

const shown = 40;

function found(headings: readonly string[]): string {
  const more = headings.length > shown ? `, and ${headings.length - shown} more` : '';
  return `${headings
    .slice(0, shown)
    .map((heading) => (heading.length > 60 ? `${heading.slice(0, 60)}…` : heading || '(blank)'))
    .join(', ')}${more}`;
}

/** As many columns as a sheet of a common spreadsheet has; more is no table of buildings. */
const mostColumns = 16_384;

function refuseTooMany({ file, headings }: SheetSample): void {
  if (headings.length <= mostColumns) return;
  throw new Refusal(
    file,
    `${file} has ${headings.length} columns in its first row, more than a spreadsheet can hold. Choose another file.`,
  );
}

function refuseRepeats({ file, headings }: SheetSample, wanted: Wanted): void {
  const rules = wanted === 'buildings' ? buildingColumns : wallColumns;
  const normals = headings.map(plainHeading);
  const repeated = rules.find(
    ({ name, derived }) => !derived && normals.indexOf(name) !== normals.lastIndexOf(name),
  );
  if (!repeated) return;
  const columns = normals.flatMap((name, i) => (name === repeated.name ? [i + 1] : []));
  throw new Refusal(
    file,
    `${file} has the heading "${repeated.name}" more than once (columns ${columns.join(', ')}), so it cannot be told which one counts. Rename or remove the others.`,
  );
}

/** What the table needs and the map does not fill, in words; null where it has all. */
export function missingSentence(
  { file, headings }: Pick<SheetSample, 'file' | 'headings'>,
  map: ColumnMap,
  wanted: Wanted,
): string | null {
  const filled = new Set([
    ...map.columns.flatMap(({ fills }) => (fills?.table === tableOf[wanted] ? [fills.column] : [])),
    ...(wanted === 'walls' ? map.groups.flatMap(({ says }) => Object.keys(says)) : []),
  ]);
  const missing = needsOf[wanted].find(
    (ways) => !ways.some((way) => way.every((name) => filled.has(name))),
  );
  if (!missing) return null;
  const absent = missing.map((way) => quoted(way.filter((name) => !filled.has(name))));
  const what =
    absent.length === 1
      ? `no heading ${absent[0]}`
      : `neither ${absent.join(' nor ')} as a heading`;
  return `${file} has ${what}, and no column that could be meant. Headings found: ${found(headings)}. Add or rename the heading in the first row, or say in the column map which column it is.`;
}

/** Throws a `Refusal` where a heading row cannot be guessed from: too long, or a heading of ours more than once. */
export function refuseHeadings(sample: SheetSample, wanted: Wanted): void {
  refuseTooMany(sample);
  refuseRepeats(sample, wanted);
}

/** Throws a `Refusal` where the map leaves out what the table needs. */
export function refuseMissing(sample: SheetSample, map: ColumnMap, wanted: Wanted): void {
  const missing = missingSentence(sample, map, wanted);
  if (missing) throw new Refusal(sample.file, missing);
}
