import { isBlank } from '../read/cells.ts';
import { readNumber } from '../read/number-text.ts';
import { type Complaint, quote } from '../read/sentences.ts';
import type { StationLayout } from './layout.ts';

/** A row of a station file that can be used. */
export interface StationRow {
  /** Degrees, −180 ≤ longitude < 180. */
  readonly longitude: number;
  readonly latitude: number;
  /** Normal in the unit of the heading; above 0. */
  readonly normal: number;
  readonly name: string | null;
  readonly period: string | null;
}

/** One record of the file. */
export interface Line {
  readonly cells: readonly string[];
  readonly decimalComma: boolean;
  /** A stray quotation mark made it of several lines. */
  readonly torn: boolean;
}

const textAt = ({ cells }: Line, index: number): string => cells[index]?.trim() ?? '';

const wordAt = (line: Line, index: number): string | null => {
  const text = textAt(line, index);
  return isBlank(text) ? null : text;
};

const complain = (column: string, value: string, code: string, says: string): Complaint => ({
  column,
  value,
  code,
  says,
});

export const isComplaint = (found: StationRow | Complaint): found is Complaint => 'says' in found;

const limits = { longitude: [-180, 360], latitude: [-90, 90] } as const;

/** A coordinate, or why the row cannot be used. */
function coordinate(
  layout: StationLayout,
  line: Line,
  column: 'longitude' | 'latitude',
): number | Complaint {
  const text = textAt(line, layout[column]);
  if (isBlank(text)) {
    const says = `${column} is missing, so the station has no place. Give it in degrees.`;
    return complain(column, text, 'station-place', says);
  }
  const value = readNumber(text.replace(/\s*°$/, ''), line.decimalComma);
  const [least, most] = limits[column];
  if (value >= least && value <= most) return value;
  const what = Number.isNaN(value) ? 'is not a number' : `is not between ${least} and ${most}`;
  const says = `${column} ${quote(text)} ${what}. Write decimal degrees such as 47.61.`;
  return complain(column, text, 'station-place', says);
}

/** The normal in the unit of its heading, or why the row cannot be used. */
function normal({ normal: { heading, index } }: StationLayout, line: Line): number | Complaint {
  const text = textAt(line, index);
  const about = (code: string, says: string) => complain(heading, text, code, says);
  if (isBlank(text))
    return about('station-blank', 'there is no normal. Give one, or leave the station out.');
  const value = readNumber(text, line.decimalComma);
  if (Number.isNaN(value)) {
    return about(
      'station-normal',
      `the normal ${quote(text)} is not a number. Write a plain number such as 812.5.`,
    );
  }
  if (value < 0) {
    return about(
      'station-negative',
      `the normal ${quote(text)} is below 0, which rain never is. If it means no data, leave the cell empty.`,
    );
  }
  if (value > 0) return value;
  return about(
    'station-zero',
    'the normal is 0. Stations are compared by the logarithm of their rain, which 0 has not; if it means no data, leave the cell empty.',
  );
}

function misshapen({ width }: StationLayout, { cells, torn }: Line): Complaint | null {
  const value = cells.find((text) => text.trim() !== '')?.trim() ?? '';
  if (torn) {
    const says =
      'a quotation mark inside a quoted cell made one row of several. Double the mark ("") or remove it.';
    return complain('(whole row)', value, 'stray-quote', says);
  }
  if (cells.slice(width).every((text) => text.trim() === '')) return null;
  const says = `it has ${cells.length} cells where there are ${width} headings. A cell that holds the delimiter needs quotation marks.`;
  return complain('(whole row)', value, 'too-many-cells', says);
}

const nowhere = (longitude: number, latitude: number): Complaint | null =>
  longitude === 0 && latitude === 0
    ? complain(
        'latitude',
        '0',
        'station-place',
        'latitude and longitude are both 0, which is where places without coordinates end up. Give the true ones.',
      )
    : null;

/** Reads one record, or says why it cannot be used. */
export function stationRow(layout: StationLayout, line: Line): StationRow | Complaint {
  const broken = misshapen(layout, line);
  if (broken) return broken;
  const longitude = coordinate(layout, line, 'longitude');
  if (typeof longitude !== 'number') return longitude;
  const latitude = coordinate(layout, line, 'latitude');
  if (typeof latitude !== 'number') return latitude;
  const value = normal(layout, line);
  if (typeof value !== 'number') return value;
  return (
    nowhere(longitude, latitude) ?? {
      longitude: longitude >= 180 ? longitude - 360 : longitude,
      latitude,
      normal: value,
      name: wordAt(line, layout.name),
      period: wordAt(line, layout.period),
    }
  );
}
