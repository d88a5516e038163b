import { Refusal } from '../read/outcome.ts';
import { coordinateColumn, listed, unitOfHeading, valueHeadings } from './heading.ts';
import { factsOf, type GridQuantity, type GridUnit, unitNamesOf } from './quantity.ts';

/** The column of the user's file that holds the values, and their unit. */
interface ValueColumn {
  readonly heading: string;
  readonly index: number;
  readonly unit: GridUnit;
}

/** Where the columns of a grid stand. */
export interface Layout {
  readonly quantity: GridQuantity;
  readonly longitude: number;
  readonly latitude: number;
  readonly value: ValueColumn;
}

/** The name we ask for: `rain_mm`, `wind_m_s`, `temperature_c`. */
const wanted = (quantity: GridQuantity): string => factsOf(quantity).heading.replaceAll(' ', '_');

function onlyColumn(
  file: string,
  quantity: GridQuantity,
  headings: readonly string[],
): readonly [string, number] {
  const { noun } = factsOf(quantity);
  const [first, ...more] = valueHeadings(quantity, headings);
  if (first === undefined) {
    throw new Refusal(
      file,
      `${file} has no column beside its coordinates. Add the ${noun}, named ${wanted(quantity)}.`,
    );
  }
  if (more.length === 0) return first;
  const names = listed([first, ...more].map(([heading]) => heading));
  throw new Refusal(
    file,
    `${file} has more than one column that could be the ${noun}: ${names}. Name the right one ${wanted(quantity)}, or keep only that one.`,
  );
}

function valueColumn(
  file: string,
  quantity: GridQuantity,
  headings: readonly string[],
): ValueColumn {
  const [heading, index] = onlyColumn(file, quantity, headings);
  const unit = unitOfHeading(quantity, heading);
  if (unit !== undefined) return { heading, index, unit };
  const { noun, unit: kept } = factsOf(quantity);
  throw new Refusal(
    file,
    `The ${noun} column “${heading}” of ${file} names no unit we know. Write it into the heading, for example “${heading} (${kept})”. Known units: ${unitNamesOf(quantity).join(', ')}.`,
  );
}

/** Finds longitude, latitude and values among the headings; throws a `Refusal` that says what is missing or doubtful. */
export const layoutOf = (
  file: string,
  quantity: GridQuantity,
  headings: readonly string[],
): Layout => ({
  quantity,
  longitude: coordinateColumn(file, headings, 'longitude'),
  latitude: coordinateColumn(file, headings, 'latitude'),
  value: valueColumn(file, quantity, headings),
});
