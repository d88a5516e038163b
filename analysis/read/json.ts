import type { Batch } from './batch.ts';
import { isFeature, pointRows } from './geojson.ts';
import { isObject, objectRows, type Table } from './object-rows.ts';
import { type ByteSource, Refusal } from './outcome.ts';
import type { RecordOptions } from './records.ts';
import { textBlocks } from './text-blocks.ts';
import { inPieces, typedBatches } from './typed-rows.ts';

/** Bytes beyond which a file does not fit the memory of every browser once it is read. */
const mostBytes = 250e6;

/** The whole text: the columns are known only once the last record is. */
async function textOf(source: ByteSource, options: RecordOptions, say: (note: string) => void) {
  if (source.size > mostBytes)
    throw new Refusal(
      source.name,
      `${source.name} is larger than ${mostBytes / 1e6} MB. Cut it to the region of the buildings, or save it as CSV or Parquet.`,
    );
  const blocks: string[] = [];
  for await (const block of textBlocks(source, options, say)) blocks.push(block);
  // A record separator may stand before each value (RFC 8142).
  return blocks.join('').replaceAll('\u001e', '');
}

/** Texts, and whole numbers outside them that are longer than the language can hold exactly. */
const longNumbers = /"(?:[^"\\]|\\.)*"|(?<![\d.eE+-])-?\d{16,}(?![\d.eE])/g;

/** The text with such numbers made texts: an identifier must not lose its last digits. */
const withExactNumbers = (text: string): string =>
  /\d{16}/.test(text)
    ? text.replace(longNumbers, (found) =>
        found.startsWith('"') || Number.isSafeInteger(Number(found)) ? found : `"${found}"`,
      )
    : text;

const notWhole = (file: string, text: string): Refusal => {
  const cut = !/[}\]]\s*$/.test(text);
  return new Refusal(
    file,
    cut
      ? `${file} ends in the middle of a record: it was cut short. Copy or export it again.`
      : `${file} is not JSON that can be read: a bracket, comma or quotation mark is missing or too many. Export it again.`,
  );
};

const parsed = (text: string): unknown => JSON.parse(withExactNumbers(text));

/** One value a line. */
function lineValues(file: string, text: string): unknown[] {
  const lines = text.split(/\r\n|\r|\n/);
  return lines.flatMap((line, i) => {
    if (line.trim() === '') return [];
    try {
      return [parsed(line)];
    } catch {
      if (i === lines.length - 1) throw notWhole(file, line);
      throw new Refusal(file, `Line ${i + 1} of ${file} is not JSON. Export the file again.`);
    }
  });
}

/** The values of a file that may hold one of them, or one a line. */
function valuesOf(file: string, text: string): unknown[] {
  try {
    return [parsed(text)];
  } catch {
    const first = text.trimStart().split(/[\r\n]/, 1)[0]!;
    const byLine = /^\{.*\}\s*$/.test(first) && first.length < text.trim().length;
    if (byLine) return lineValues(file, text);
    throw notWhole(file, text);
  }
}

const noTable = (file: string, why: string): Refusal =>
  new Refusal(
    file,
    `${file} is JSON, but no table: ${why}. What can be read is a list of records, [{"building_id": "B-1", …}, …], or GeoJSON with points.`,
  );

/** What is wrong with a single object, by its `type`. */
const oddities: Readonly<Record<string, string>> = {
  Topology: 'it is TopoJSON, which holds shapes in a coordinate system of its own',
  GeometryCollection: 'it holds geometries without properties',
  Point: 'it holds a geometry without properties',
};

function tableOf(file: string, values: readonly unknown[]): Table {
  const [only] = values;
  if (values.length === 1 && isObject(only) && only.type === 'FeatureCollection')
    return pointRows(file, only.features, only);
  const list = values.length === 1 && Array.isArray(only) ? (only as readonly unknown[]) : values;
  if (list.length > 0 && list.every(isFeature)) return pointRows(file, list, only);
  if (values.length === 1 && list === values) {
    const type = isObject(only) ? String(only.type) : '';
    throw noTable(file, oddities[type] ?? 'it holds a single value');
  }
  const odd = list.findIndex((value) => !isObject(value));
  if (odd >= 0) throw noTable(file, `its record ${odd + 1} has no named values`);
  if (list.length === 0) throw noTable(file, 'its list is empty');
  return objectRows(file, list as Record<string, unknown>[]);
}

/**
 * The records of a JSON file: points of GeoJSON (RFC 7946, whole or a feature a line), or a list of records with named
 * values. The headings are row 1, so that the first record is row 2; values inside values become JSON text.
 * Throws a `Refusal` when it is not JSON, no table, or larger than 250 MB.
 */
export async function* jsonBatches(
  source: ByteSource,
  options: RecordOptions,
): AsyncGenerator<Batch> {
  const { name: file } = source;
  const notes: string[] = [];
  const text = await textOf(source, options, (note) => notes.push(note));
  const table = tableOf(file, valuesOf(file, text));
  notes.push(...table.notes);
  const rows = [{ row: 1, cells: table.headings }, ...table.rows];
  yield* typedBatches(inPieces(rows), notes);
}
