import { Refusal } from '../read/outcome.ts';
import {
  coordinateColumn,
  listed,
  type RainUnit,
  rainHeadings,
  unitNames,
  unitOf,
} from './heading.ts';

/** A column of the user's file that holds rain. */
interface RainColumn extends RainUnit {
  readonly heading: string;
  readonly index: number;
}

/** Where the columns of a rain grid stand. */
export interface Layout {
  readonly longitude: number;
  readonly latitude: number;
  readonly rain: RainColumn;
}

function onlyRain(file: string, headings: readonly string[]): readonly [string, number] {
  const [first, ...more] = rainHeadings(headings);
  if (first === undefined) {
    throw new Refusal(
      file,
      `${file} has no column beside its coordinates. Add the rain, named rain_mm.`,
    );
  }
  if (more.length === 0) return first;
  const names = listed([first, ...more].map(([heading]) => heading));
  throw new Refusal(
    file,
    `${file} has more than one column that could be the rain: ${names}. Name the right one rain_mm, or keep only that one.`,
  );
}

function rainColumn(file: string, headings: readonly string[]): RainColumn {
  const [heading, index] = onlyRain(file, headings);
  const unit = unitOf(heading);
  if (unit !== undefined) return { heading, index, ...unit };
  throw new Refusal(
    file,
    `The rain column “${heading}” of ${file} names no unit we know. Write it into the heading, for example “${heading} (mm)”. Known units: ${unitNames.join(', ')}.`,
  );
}

/** Finds longitude, latitude and rain among the headings; throws a `Refusal` that says what is missing or doubtful. */
export const layoutOf = (file: string, headings: readonly string[]): Layout => ({
  longitude: coordinateColumn(file, headings, 'longitude'),
  latitude: coordinateColumn(file, headings, 'latitude'),
  rain: rainColumn(file, headings),
});
