import type { Batch } from '../batch.ts';
import { type ByteSource, Refusal } from '../outcome.ts';
import type { RecordOptions } from '../records.ts';
import { typedBatches } from '../typed-rows.ts';
import { type Contents, contentsOf, meaningsOf, type Sheet, sharedStrings } from './parts.ts';
import { sheetRows } from './sheet.ts';
import { openZip, type Zip } from './zip.ts';

/** Archives that are no XLSX workbook, by a name inside; what to do instead. */
const others: readonly (readonly [RegExp, string])[] = [
  [/^xl\/workbook\.bin$/, 'is a workbook in binary form (.xlsb). Save it as an XLSX workbook'],
  [
    /^content\.xml$/,
    'is an OpenDocument file. Save the sheet as an XLSX workbook or as CSV (UTF-8)',
  ],
  [/^word\/|^ppt\//, 'is a text document or a presentation. Save its table as CSV (UTF-8)'],
  [/\.iwa$/, 'is a spreadsheet that only its own program reads. Export it as an XLSX workbook'],
];

/** Refuses an archive that is no workbook. */
function refuseOthers({ file, names }: Zip): void {
  if ([...names].some((name) => name.endsWith('workbook.xml'))) return;
  const what = others.find(([form]) => [...names].some((name) => form.test(name)))?.[1];
  throw new Refusal(
    file,
    `${file} ${what ?? 'is a ZIP archive and no workbook. Unpack it'}, and choose the ${what ? 'new file' : 'table inside'}.`,
  );
}

const visible = (sheets: readonly Sheet[]): readonly Sheet[] => {
  const shown = sheets.filter(({ hidden }) => !hidden);
  return shown.length > 0 ? shown : sheets;
};

async function open(source: ByteSource): Promise<{ zip: Zip; contents: Contents }> {
  const zip = await openZip(source);
  refuseOthers(zip);
  const contents = await contentsOf(zip);
  if (contents.sheets.length === 0)
    throw new Refusal(
      source.name,
      `${source.name} is a workbook without a sheet of cells. Choose another file.`,
    );
  return { zip, contents };
}

const namesOf = (sheets: readonly Sheet[]): string =>
  sheets.map(({ name }) => `“${name}”`).join(', ');

/** The named sheet, hidden or not, or the first that is not hidden. */
function sheetOf(file: string, { sheets }: Contents, name: string | undefined): Sheet {
  if (name === undefined) return visible(sheets)[0]!;
  const found = sheets.find((sheet) => sheet.name === name);
  if (found) return found;
  throw new Refusal(file, `${file} has no sheet “${name}”. Its sheets are ${namesOf(sheets)}.`);
}

function emptySheet(file: string, sheet: Sheet, sheets: readonly Sheet[]): Refusal {
  const rest = visible(sheets).filter(({ name }) => name !== sheet.name);
  const instead =
    rest.length > 0 ? `Choose another sheet: ${namesOf(rest)}.` : 'Choose another file.';
  return new Refusal(file, `The sheet “${sheet.name}” of ${file} is empty. ${instead}`);
}

/**
 * The records of a sheet of an XLSX workbook (ISO/IEC 29500, both forms): dates as yyyy-mm-dd, numbers plain, results of
 * formulas as stored, errors as shown. The sheet is unpacked as it is read; texts are held in memory.
 * Throws a `Refusal` when the workbook is damaged, locked, empty or too large.
 */
export async function* workbookBatches(
  source: ByteSource,
  options: RecordOptions,
): AsyncGenerator<Batch> {
  const { zip, contents } = await open(source);
  const sheet = sheetOf(source.name, contents, options.sheet);
  const lookup = {
    strings: await sharedStrings(zip, contents.strings, options),
    meanings: await meaningsOf(zip, contents.styles),
    from1904: contents.from1904,
  };
  const notes: string[] = [];
  let any = false;
  for await (const batch of typedBatches(
    sheetRows(zip, sheet.part, lookup, options, notes),
    notes,
  )) {
    any = true;
    yield batch;
  }
  options.onProgress?.(source.size);
  if (!any) throw emptySheet(source.name, sheet, contents.sheets);
}

/** The sheets of a workbook that are not hidden, in order. */
export async function sheetNames(source: ByteSource): Promise<string[]> {
  const { contents } = await open(source);
  return visible(contents.sheets).map(({ name }) => name);
}
