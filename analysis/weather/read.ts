import { csvBatches } from '../read/csv.ts';
import { type ByteSource, Refusal, type Remark } from '../read/outcome.ts';
import { type Complaint, quote, remark } from '../read/sentences.ts';
import { finished, newStore, putNumber, type Store } from '../read/store.ts';
import type { Watch } from '../read/text-blocks.ts';
import { type Reading, type WeatherCell, weatherCell } from './cells.ts';
import { headingRow, type MeasureColumn, type WeatherLayout, weatherLayout } from './headings.ts';
import { type Hours, type RawRows, settle } from './settle.ts';
import { readMoment } from './time.ts';

/** An hourly record as read. `rowsRead = hours.n + setAside.length`, always. */
export interface WeatherRecord {
  readonly file: string;
  readonly rowsRead: number;
  readonly hours: Hours;
  /** Whether the file has a temperature at all. */
  readonly hasTemperature: boolean;
  /** Rows that stand before an earlier one; the hours are in order of time all the same. */
  readonly outOfOrder: number;
  /** How columns, units, dates and directions were read, a sentence each. */
  readonly understood: readonly string[];
  readonly setAside: readonly Remark[];
  /** Cells of hours kept that could not be read and are taken as missing. */
  readonly noted: readonly Remark[];
}

/** Everything gathered below the heading row. */
interface Gathering {
  readonly file: string;
  readonly layout: WeatherLayout;
  readonly cells: Readonly<Record<'rain' | 'speed' | 'direction' | 'temperature', WeatherCell>>;
  readonly store: Store;
  readonly unreadTimes: Map<number, Complaint>;
  /** By place in the store: a row may still be set aside. */
  readonly notes: { readonly at: number; readonly remark: Remark }[];
  readonly setAside: Remark[];
}

const columns = [
  'monthFirst',
  'dayFirst',
  'rain',
  'speed',
  'direction',
  'temperature',
  'trace',
  'variable',
  'row',
] as const;

const noCell: WeatherCell = () => ({ value: Number.NaN, meaning: 'missing', complaint: null });

function begin(file: string, headings: readonly string[], decimalComma: boolean): Gathering {
  const layout = weatherLayout(file, headings);
  const cell = (column: MeasureColumn) => weatherCell(column, decimalComma);
  const cells = {
    rain: cell(layout.rain),
    speed: cell(layout.speed),
    direction: cell(layout.direction),
    temperature: layout.temperature ? cell(layout.temperature) : noCell,
  };
  const store = newStore(columns.map(() => true));
  return { file, layout, cells, store, unreadTimes: new Map(), notes: [], setAside: [] };
}

/** Why a record is no row of this file, whatever its cells hold. */
function misshapen({ layout }: Gathering, record: readonly string[], torn: boolean) {
  const value = (record.find((text) => text.trim() !== '') ?? '').trim();
  const cell = { column: '(whole row)', value };
  if (torn) {
    const says =
      'a quotation mark inside a quoted cell made one row of several. Double the mark ("") or remove it.';
    return { ...cell, code: 'stray-quote', says };
  }
  if (record.slice(layout.width).every((text) => text.trim() === '')) return null;
  const says = `it has ${record.length} cells where there are ${layout.width} headings. Correct the row so that its cells stand under their headings.`;
  return { ...cell, code: 'too-many-cells', says };
}

const noMoment = { monthFirst: Number.NaN, dayFirst: Number.NaN };

const unreadTime = {
  'date-only': 'has no time of day, so its hour is not known. Write it as 2019-03-31 14:00.',
  'not-time': 'is not a date and time. Write it as 2019-03-31 14:00 or 3/31/2019 14:00.',
};

/** Both ways of reading the time; where one of them is none, a complaint is kept for the case that it is the one. */
function takeTime({ layout, store, unreadTimes }: Gathering, record: readonly string[]): void {
  const value = layout.time.positions
    .map((position) => (record[position] ?? '').trim())
    .join(' ')
    .trim();
  const moment = readMoment(value);
  const { monthFirst, dayFirst } = typeof moment === 'object' && moment ? moment : noMoment;
  if (Number.isNaN(monthFirst + dayFirst)) {
    const code = moment === 'date-only' ? 'date-only' : 'not-time';
    const says = `the time ${quote(value)} ${unreadTime[code]}`;
    unreadTimes.set(store.n, { column: layout.time.heading, value, code, says });
  }
  putNumber(store, 0, monthFirst);
  putNumber(store, 1, dayFirst);
}

/** A calm has no direction, and a direction of calm stands for a speed of 0 where none is written. */
function windOf(speed: Reading, direction: Reading): { speed: number; direction: number } {
  const calm = direction.meaning === 'calm';
  return {
    speed: calm && speed.meaning === 'missing' ? 0 : speed.value,
    direction: calm ? Number.NaN : direction.value,
  };
}

function takeRow(into: Gathering, record: readonly string[], row: number): void {
  const { file, layout, cells, store, notes } = into;
  const read = (column: MeasureColumn | null, cell: WeatherCell): Reading => {
    const reading = cell(column ? (record[column.position] ?? '').trim() : '');
    if (reading.complaint)
      notes.push({ at: store.n, remark: remark(file, row, reading.complaint) });
    return reading;
  };
  const rain = read(layout.rain, cells.rain);
  const direction = read(layout.direction, cells.direction);
  const wind = windOf(read(layout.speed, cells.speed), direction);
  const temperature = read(layout.temperature, cells.temperature);
  takeTime(into, record);
  [
    rain.value,
    wind.speed,
    wind.direction,
    temperature.value,
    Number(rain.meaning === 'trace'),
    Number(direction.meaning === 'variable'),
    row,
  ].forEach((value, i) => {
    putNumber(store, 2 + i, value);
  });
  store.n += 1;
}

async function gather(source: ByteSource, watch: Watch): Promise<Gathering> {
  let into: Gathering | undefined;
  for await (const { records, rows, torn, decimalComma } of csvBatches(source, watch)) {
    const heading = into ? -1 : headingRow(records);
    into ??= begin(source.name, records[heading]!, decimalComma);
    for (let i = heading + 1; i < records.length; i += 1) {
      const complaint = misshapen(into, records[i]!, torn.has(i));
      if (complaint) into.setAside.push(remark(source.name, rows[i]!, complaint));
      else takeRow(into, records[i]!, rows[i]!);
    }
  }
  return into!;
}

function rawRows({ store, unreadTimes }: Gathering): RawRows {
  const named = columns.map((name, i) => [name, finished(store, i)] as const);
  const byName = Object.fromEntries(named) as Record<(typeof columns)[number], Float64Array>;
  return { n: store.n, unreadTimes, ...byName };
}

function refuseEmpty(file: string, rowsRead: number, setAside: readonly Remark[]): never {
  throw new Refusal(
    file,
    rowsRead === 0
      ? `${file} has headings but no rows below them. Choose another file.`
      : `None of the ${rowsRead} rows of ${file} could be read. For example: ${setAside[0]!.message}`,
  );
}

function refuseDry(file: string, { heading }: MeasureColumn, hours: Hours): void {
  if (hours.rain.some((mm) => mm > 0)) return;
  const what = hours.rain.every(Number.isNaN) ? 'no readable value' : 'no hour with rain';
  throw new Refusal(
    file,
    `${file} has ${what} under "${heading}", so it says nothing about driven rain. Choose a record with hourly rain.`,
  );
}

/**
 * Reads an hourly weather record: time, rain, wind speed and direction, and temperature if there is one, under the
 * headings of data/weather/headings.csv, units in the headings. Hours come out in order of time, one row an hour, in mm,
 * m/s, degrees and °C. Set aside: rows without a readable time, and all but one of the rows of an hour.
 * Throws a `Refusal` when the file has no rain or is no hourly record.
 */
export async function readWeather(source: ByteSource, watch: Watch = {}): Promise<WeatherRecord> {
  const gathered = await gather(source, watch);
  const { file, layout } = gathered;
  const settled = settle(file, layout, rawRows(gathered));
  const setAside = [...gathered.setAside, ...settled.setAside].sort((a, b) => a.row - b.row);
  const rowsRead = gathered.store.n + gathered.setAside.length;
  if (settled.hours.n === 0) refuseEmpty(file, rowsRead, setAside);
  refuseDry(file, layout.rain, settled.hours);
  return {
    file,
    rowsRead,
    hours: settled.hours,
    hasTemperature: layout.temperature !== null,
    outOfOrder: settled.outOfOrder,
    understood: settled.understood,
    setAside,
    noted: gathered.notes.filter(({ at }) => settled.kept.has(at)).map(({ remark }) => remark),
  };
}
