import type { Origin } from './origin.ts';

/** What stands in the margins of every page. Page numbers are the browser's (`report.css`). */
export interface Footing {
  /** Top left. */
  readonly title: string;
  /** Top right; '' where there is nothing to mark. */
  readonly mark: string;
  /** Lines at the foot. */
  readonly foot: readonly string[];
}

/** Files named at the foot; the rest are listed under *Where this comes from*. */
const namedFiles = 3;
/** Digits of a digest at the foot; whole digests stand at the end. */
const shortDigest = 12;

export const inventedMark = 'INVENTED EXAMPLE \u00b7 no real building';

const filesLine = ({ files }: Origin): string => {
  const named = [...new Map(files.map((one) => [one.file, one])).values()];
  const words = named
    .slice(0, namedFiles)
    .map(({ file, sha256 }) => (sha256 ? `${file} (${sha256.slice(0, shortDigest)}…)` : file));
  const more = named.length - namedFiles;
  return `Files: ${words.join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
};

/** The margins of a printout made from this run. */
export const footingOf = (title: string, origin: Origin, printedOn: string): Footing => ({
  title,
  mark: origin.demo ? inventedMark : '',
  foot: [
    `${origin.software}, method ${origin.method}, as of ${origin.asOf}. Screening, not diagnosis: no wall has been seen. Settings: ${origin.changed || 'as they ship'}. Printed on ${printedOn}.`,
    `Rain: ${origin.rain.source}, ${origin.rain.period}. ${filesLine(origin)}.`,
  ],
});

/** A text as a CSS string. */
export const cssString = (text: string): string =>
  `"${text.replace(/["\\]/g, '\\$&').replaceAll('\n', '\\a ')}"`;

/** Custom properties that the margin boxes of `report.css` show, by name. */
export const footingProperties = ({ title, mark, foot }: Footing): readonly [string, string][] => [
  ['--paper-title', cssString(title)],
  ['--paper-mark', cssString(mark)],
  ['--paper-foot', cssString(foot.join('\n'))],
];

/** Today where the reader is, as ISO 8601 writes it. */
export const today = (): string => new Date().toLocaleDateString('en-CA');
