import type { ColumnMap } from '../mapping/column-map.ts';
import { plainHeading } from '../mapping/heading-words.ts';
import {
  type FileReport,
  type MarkedRemark,
  type Progress,
  type ReadReport,
  type Tier,
  tiers,
} from '../session-types.ts';

type Print = (line: string) => void;

/** Says of each file what was accepted and how its headings were read, with the first few remarks. */
export function printReport(
  { files }: ReadReport,
  remarks: readonly MarkedRemark[],
  print: Print,
  most: number,
): void {
  for (const file of files) {
    print(balance(file));
    for (const note of file.notes) print(`  ${note}`);
    if (file.map) for (const line of mapLines(file.map)) print(`  ${line}`);
    const own = remarks.filter((remark) => remark.file === file.file && roleFits(remark, file));
    for (const { message } of own.slice(0, most)) print(`  ${message}`);
    const all = file.setAside + file.noted;
    if (all > most) print(`  … and ${all - most} more.`);
  }
}

/** What a ranking was made of and how it came out. */
export interface RankedSummary {
  readonly report: ReadReport;
  /** At least the first three of each table. */
  readonly remarks: readonly MarkedRemark[];
  readonly counts: Readonly<Record<Tier, number>>;
}

/** Says what was read, how many buildings are in each tier, and which files were written. */
export function printRanked(
  { report, remarks, counts }: RankedSummary,
  written: readonly string[],
  print: Print,
): void {
  printReport(report, remarks, print, 3);
  print(tiers.map((tier) => `${tier} ${counts[tier]}`).join(' · '));
  print(`Wrote ${written.join(' and ')}.`);
  print(
    'Screening, not diagnosis: a low place is not a clearance. Local codes and a licensed professional decide.',
  );
}

/** A file that holds buildings and walls is reported once as each. */
const roleFits = ({ table }: MarkedRemark, { role }: FileReport): boolean =>
  table === null || (table === 'wall') === (role === 'walls');

function balance({ file, role, rowsRead, accepted, joined, setAside, noted }: FileReport): string {
  const one = joined > 0 ? ` + ${joined} one with an earlier row` : '';
  return `${file} (${role}): ${rowsRead} rows read = ${accepted} accepted${one} + ${setAside} set aside; ${noted} notes.`;
}

/** Headings that are not the contract's, and what they were read as. */
function mapLines({ columns, shape }: ColumnMap): string[] {
  const lines = columns.flatMap(({ heading, fills, unit, wall }) => {
    if (!fills || fills.column === plainHeading(heading)) return [];
    const of = wall === null ? '' : ` of wall ${wall}`;
    return [`“${heading}” read as ${fills.column}${of}${unit === null ? '' : `, in ${unit}`}`];
  });
  return shape === 'buildings' || shape === 'walls'
    ? lines
    : [`Buildings and walls in one sheet (${shape}).`, ...lines];
}

/** Progress on one line of a terminal; nothing where the output is piped. */
export function terminalProgress(): ((progress: Progress) => void) | undefined {
  if (!process.stderr.isTTY) return undefined;
  let last = '';
  return ({ what, share }) => {
    const line = share === null ? what : `${what} ${Math.floor(share * 100)} %`;
    if (line === last) return;
    last = line;
    process.stderr.write(`\r\u001b[2K${line}`);
  };
}

/** Takes the line of progress away. */
export const clearProgress = (): void => {
  if (process.stderr.isTTY) process.stderr.write('\r\u001b[2K');
};
