import { fold } from '../place/fold.ts';
import { Refusal } from '../read/outcome.ts';
import { clip } from '../read/sentences.ts';
import {
  headingSpellings,
  type Quantity,
  unitNamed,
  unitSpellings,
  type WeatherUnit,
} from './tables.ts';

/** A column that holds a quantity. */
export interface MeasureColumn {
  readonly quantity: Quantity;
  /** As the user wrote it. */
  readonly heading: string;
  readonly position: number;
  /** Undefined only for directions, whose unit may be left to be read from the values. */
  readonly unit: WeatherUnit | undefined;
}

/** Where the columns of an hourly record stand. */
export interface WeatherLayout {
  readonly width: number;
  readonly time: { readonly heading: string; readonly positions: readonly number[] };
  readonly rain: MeasureColumn & { readonly unit: WeatherUnit };
  readonly speed: MeasureColumn & { readonly unit: WeatherUnit };
  readonly direction: MeasureColumn;
  readonly temperature: (MeasureColumn & { readonly unit: WeatherUnit }) | null;
}

const fillers = new Set(headingSpellings('filler').keys());

/** Names are compared without the words that change nothing, unless nothing else is left. */
const bare = (name: string): string =>
  name
    .split(' ')
    .filter((word) => !fillers.has(word))
    .join(' ');

const spellings = (quantity: string) => ({
  names: headingSpellings(quantity),
  units: unitSpellings(quantity),
});

const known = {
  stamp: spellings('stamp'),
  date: spellings('date'),
  clock: spellings('clock'),
  rain: spellings('rain'),
  speed: spellings('speed'),
  direction: spellings('direction'),
  temperature: spellings('temperature'),
};

/** The unit a heading gives for this quantity: null where it names none, undefined where it is another heading. */
function unitIn(heading: string, quantity: keyof typeof known): WeatherUnit | null | undefined {
  const { names, units } = known[quantity];
  const folded = fold(heading);
  for (const { spelt, of } of units) {
    if (folded.endsWith(` ${spelt}`) && names.has(bare(folded.slice(0, -spelt.length - 1))))
      return of;
  }
  const name = names.get(bare(folded));
  if (!name) return undefined;
  return name.unit ? unitNamed(quantity, name.unit) : null;
}

const positionsOf = (headings: readonly string[], quantity: keyof typeof known): number[] =>
  headings.flatMap((heading, position) =>
    unitIn(heading, quantity) === undefined ? [] : [position],
  );

const listed = (headings: readonly string[]): string =>
  headings.map((heading) => `"${clip(heading)}"`).join(', ');

const advice: Readonly<Record<Quantity, { readonly what: string; readonly example: string }>> = {
  rain: { what: 'rain', example: 'rain (mm)' },
  speed: { what: 'wind speed', example: 'wind speed (m/s)' },
  direction: { what: 'wind direction', example: 'wind direction (degrees)' },
  temperature: { what: 'temperature', example: 'temperature (°C)' },
};

function missing(file: string, headings: readonly string[], quantity: Quantity): Refusal {
  const { what, example } = advice[quantity];
  return new Refusal(
    file,
    `${file} has no column for ${what}, so it says nothing about driven rain. Headings found: ${listed(headings)}. Add an hourly column headed, for example, "${example}", or choose another file.`,
  );
}

function noUnit(file: string, heading: string, quantity: Quantity): Refusal {
  const units = [...new Set(known[quantity].units.map(({ of }) => of.unit))].join(', ');
  return new Refusal(
    file,
    `The heading "${clip(heading)}" of ${file} names no unit. Write it into the heading, for example "${advice[quantity].example}". Units known here: ${units}.`,
  );
}

function several(file: string, headings: readonly string[], quantity: Quantity): Refusal {
  return new Refusal(
    file,
    `${file} has more than one column for ${advice[quantity].what}: ${listed(headings)}. Keep only the one that counts.`,
  );
}

/** The one column of a quantity; where the same name stands in several units, the first of them. */
function measure(
  file: string,
  headings: readonly string[],
  quantity: Quantity,
): MeasureColumn | undefined {
  const found = positionsOf(headings, quantity);
  const [position] = found;
  if (position === undefined) return undefined;
  if (found.length > 1 && quantity !== 'temperature') {
    throw several(
      file,
      found.map((i) => headings[i]!),
      quantity,
    );
  }
  const heading = headings[position]!;
  return { quantity, heading, position, unit: unitIn(heading, quantity) ?? undefined };
}

function withUnit(file: string, column: MeasureColumn): MeasureColumn & { unit: WeatherUnit } {
  const { unit } = column;
  if (!unit) throw noUnit(file, column.heading, column.quantity);
  return { ...column, unit };
}

/** The time stands in one column, or in a column of dates and one of times of day. */
function timePositions(headings: readonly string[]): readonly number[] {
  const [stamp] = positionsOf(headings, 'stamp');
  if (stamp !== undefined) return [stamp];
  return [
    ...positionsOf(headings, 'date').slice(0, 1),
    ...positionsOf(headings, 'clock').slice(0, 1),
  ];
}

const needed = ['rain', 'speed', 'direction'] as const;

/** How much of an hourly record a row could head, 0 to 4. */
const headed = (record: readonly string[]): number =>
  Math.min(1, timePositions(record).length) +
  needed.filter((quantity) => positionsOf(record, quantity).length > 0).length;

/** Rows in which the headings are looked for. */
const rowsOfText = 100;

/** Place of the heading row among the first records: files of weather services often begin with some lines of text. */
export function headingRow(records: readonly (readonly string[])[]): number {
  const scores = records.slice(0, rowsOfText).map(headed);
  return scores.indexOf(Math.max(...scores));
}

/** Finds the columns of an hourly record by data/weather/headings.csv; throws a `Refusal` that says what is missing or doubtful. */
export function weatherLayout(file: string, record: readonly string[]): WeatherLayout {
  const headings = record.map((heading) => heading.trim());
  const [rain, speed, direction] = needed.map((quantity) => {
    const column = measure(file, headings, quantity);
    if (!column) throw missing(file, headings, quantity);
    return column;
  }) as [MeasureColumn, MeasureColumn, MeasureColumn];
  const positions = timePositions(headings);
  if (positions.length === 0) {
    throw new Refusal(
      file,
      `${file} has no column for the time. Headings found: ${listed(headings)}. Add one headed "time" with the date and hour of each row, for example 2019-03-31 14:00.`,
    );
  }
  const temperature = measure(file, headings, 'temperature');
  return {
    width: headings.length,
    time: { heading: positions.map((i) => headings[i]).join(' + '), positions },
    rain: withUnit(file, rain),
    speed: withUnit(file, speed),
    direction,
    temperature: temperature ? withUnit(file, temperature) : null,
  };
}
