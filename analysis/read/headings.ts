import { Refusal } from './outcome.ts';
import type { ColumnRule, Needs } from './schema.ts';

/** A column of the file that the contract does not know. */
export interface ExtraColumn {
  /** The heading as written, made unique; `column_7` where it is blank. */
  readonly name: string;
  readonly position: number;
  readonly unnamed: boolean;
}

export interface Headings {
  /** Position in the file of each rule's column, −1 where absent. */
  readonly positions: readonly number[];
  readonly extras: readonly ExtraColumn[];
}

const normal = (heading: string): string =>
  heading
    .trim()
    .toLowerCase()
    .replace(/[\s-]+/g, '_');

const quoted = (names: readonly string[]): string => names.map((name) => `"${name}"`).join(' and ');

const shown = 40;

function found(headings: readonly string[]): string {
  const more = headings.length > shown ? `, and ${headings.length - shown} more` : '';
  return `${headings
    .slice(0, shown)
    .map((heading) => (heading.length > 60 ? `${heading.slice(0, 60)}…` : heading || '(blank)'))
    .join(', ')}${more}`;
}

/** Distinct whatever the case, since the engine's column names ignore case: `Key`, `key (2)`. */
function unique(name: string, taken: Map<string, number>): string {
  const key = name.toLowerCase();
  let times = taken.get(key) ?? 0;
  let candidate = name;
  for (; taken.has(candidate.toLowerCase()); candidate = `${name} (${times})`) times += 1;
  taken.set(key, Math.max(times, 1));
  if (candidate !== name) taken.set(candidate.toLowerCase(), 1);
  return candidate;
}

/** As many columns as a sheet of a common spreadsheet has; more is no table of buildings. */
const mostColumns = 16_384;

function refuseTooMany(file: string, headings: readonly string[]): void {
  if (headings.length <= mostColumns) return;
  throw new Refusal(
    file,
    `${file} has ${headings.length} columns in its first row, more than a spreadsheet can hold. Choose another file.`,
  );
}

function refuseRepeats(
  file: string,
  headings: readonly string[],
  rules: readonly ColumnRule[],
): void {
  const normals = headings.map(normal);
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

function refuseMissing(file: string, headings: readonly string[], needs: Needs): void {
  const normals = new Set(headings.map(normal));
  const missing = needs.find((ways) => !ways.some((way) => way.every((name) => normals.has(name))));
  if (!missing) return;
  const absent = missing.map((way) => quoted(way.filter((name) => !normals.has(name))));
  const what =
    absent.length === 1
      ? `no heading ${absent[0]}`
      : `neither ${absent.join(' nor ')} as a heading`;
  throw new Refusal(
    file,
    `${file} has ${what}. Headings found: ${found(headings)}. Add or rename the heading in the first row.`,
  );
}

/**
 * Matches the heading row to the contract's columns: trimmed, whatever the case, a space or hyphen as good as an
 * underscore. Throws a `Refusal` when a needed heading is missing or a known one is repeated.
 */
export function matchHeadings(
  file: string,
  headings: readonly string[],
  rules: readonly ColumnRule[],
  needs: Needs,
): Headings {
  refuseTooMany(file, headings);
  refuseRepeats(file, headings, rules);
  refuseMissing(file, headings, needs);
  const normals = headings.map(normal);
  const positions = rules.map(({ name, derived }) => (derived ? -1 : normals.indexOf(name)));
  const known = new Set(positions);
  const taken = new Map<string, number>();
  const extras = headings.flatMap((heading, position) => {
    if (known.has(position)) return [];
    const name = unique(heading.trim() || `column_${position + 1}`, taken);
    return [{ name, position, unnamed: heading.trim() === '' }];
  });
  return { positions, extras };
}
