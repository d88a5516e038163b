import {
  coordinateColumn,
  listed,
  type RainUnit,
  rainHeadings,
  unitNames,
  unitOf,
} from '../rain/heading.ts';
import { Refusal } from '../read/outcome.ts';

/** The column of the normals. */
export interface NormalColumn extends RainUnit {
  readonly heading: string;
  readonly index: number;
}

/** Where the columns of a station file stand; −1 where there is none. */
export interface StationLayout {
  readonly width: number;
  readonly longitude: number;
  readonly latitude: number;
  readonly name: number;
  readonly period: number;
  readonly normal: NormalColumn;
}

type Named = readonly [heading: string, index: number];

const stationNeeds = 'A station needs latitude and longitude in degrees, and its annual normal.';

const nameHeading = /^(station[ _]?)?name$|^station$|^city$/i;
const periodHeading = /^(normals?[ _])?(period|years)$/i;
const normalWords = /normal|annual|yearly/i;

/** The columns that could hold the normals: of those named like rain, or else of all, those with a unit; best named first. */
function normalColumns(headings: readonly string[]): readonly Named[] {
  const likely = rainHeadings(headings).filter(
    ([heading]) => !nameHeading.test(heading.trim()) && !periodHeading.test(heading.trim()),
  );
  const withUnit = likely.filter(([heading]) => unitOf(heading) !== undefined);
  const wellNamed = withUnit.filter(([heading]) => normalWords.test(heading));
  const choices = [wellNamed, withUnit, likely.filter(([heading]) => normalWords.test(heading))];
  return choices.find((some) => some.length > 0) ?? likely;
}

function normalColumn(file: string, headings: readonly string[]): NormalColumn {
  const [first, ...more] = normalColumns(headings);
  if (first === undefined) {
    throw new Refusal(
      file,
      `${file} has no column for the annual normal. Add it, named normal_mm or normal_in.`,
    );
  }
  const unit = unitOf(first[0]);
  const names = listed([first, ...more].map(([heading]) => heading));
  if (unit === undefined) {
    throw new Refusal(
      file,
      `No column of ${file} names a unit of rain (looked at: ${names}). Write the unit into the heading of the annual normal, for example normal_mm or “normal (in)”. Known units: ${unitNames.join(', ')}.`,
    );
  }
  if (more.length === 0) return { heading: first[0], index: first[1], ...unit };
  throw new Refusal(
    file,
    `${file} has more than one column that could be the annual normal: ${names}. Name the right one normal_mm or normal_in, or keep only that one.`,
  );
}

/** Finds the columns of a station file among its headings; a `Refusal` says what is missing or doubtful. */
export const stationLayout = (file: string, headings: readonly string[]): StationLayout => ({
  width: headings.length,
  longitude: coordinateColumn(file, headings, 'longitude', stationNeeds),
  latitude: coordinateColumn(file, headings, 'latitude', stationNeeds),
  name: headings.findIndex((heading) => nameHeading.test(heading.trim())),
  period: headings.findIndex((heading) => periodHeading.test(heading.trim())),
  normal: normalColumn(file, headings),
});
