import type { Watch } from '../text-blocks.ts';
import { type Meaning, meaningOf } from './formats.ts';
import { attribute, decoded, type Handlers, markupReader, unescaped } from './markup.ts';
import { damaged, tooLarge, type Zip } from './zip.ts';

export interface Sheet {
  readonly name: string;
  /** Name of its part in the archive. */
  readonly part: string;
  readonly hidden: boolean;
}

/** What a workbook says of itself. */
export interface Contents {
  readonly sheets: readonly Sheet[];
  readonly from1904: boolean;
  readonly strings: string | null;
  readonly styles: string | null;
}

/** Characters of all texts of a workbook beyond which they do not fit the memory of every browser. */
const mostText = 250e6;

const silent: Handlers = { open: () => {}, close: () => {}, text: () => {} };

/** Reads a part with these handlers. */
async function readPart(
  zip: Zip,
  part: string,
  handlers: Partial<Handlers>,
  watch: Watch = {},
): Promise<void> {
  const refuse = (): never => {
    throw damaged(zip.file, `its part ${part} holds a tag that never ends`);
  };
  const take = markupReader({ ...silent, ...handlers }, refuse);
  for await (const piece of zip.pieces(part, watch)) take(piece);
}

/** A path of the archive, from one that is relative to a folder of it. */
function resolved(folder: string, target: string): string {
  const steps = target.startsWith('/') ? [] : folder.split('/').filter(Boolean);
  for (const step of target.split('/')) {
    if (step === '..') steps.pop();
    else if (step !== '' && step !== '.') steps.push(step);
  }
  return steps.join('/').toLowerCase();
}

interface Relation {
  readonly id: string;
  /** Last word of its type, the same in the transitional and the strict form of the standard. */
  readonly kind: string;
  readonly part: string;
}

async function relationsOf(zip: Zip, part: string): Promise<Relation[]> {
  const [folder, name] = [part.slice(0, part.lastIndexOf('/') + 1), part.split('/').at(-1)];
  const found: Relation[] = [];
  const open = (tag: string, attributes: string): void => {
    const [id, type, target] = ['Id', 'Type', 'Target'].map((key) => attribute(attributes, key));
    if (tag !== 'Relationship' || !id || !type || !target) return;
    found.push({ id, kind: type.split('/').at(-1)!, part: resolved(folder, target) });
  };
  await readPart(zip, `${folder}_rels/${name}.rels`, { open });
  return found;
}

/** Reads which sheets a workbook has and where its parts stand. */
export async function contentsOf(zip: Zip): Promise<Contents> {
  const main = (await relationsOf(zip, '')).find(({ kind }) => kind === 'officeDocument');
  const workbook = main?.part ?? 'xl/workbook.xml';
  const relations = await relationsOf(zip, workbook);
  const worksheets = new Map(
    relations.filter(({ kind }) => kind === 'worksheet').map(({ id, part }) => [id, part]),
  );
  const sheets: Sheet[] = [];
  let from1904 = false;
  const open = (tag: string, attributes: string): void => {
    if (tag === 'workbookPr')
      from1904 = /^(?:1|true)$/.test(attribute(attributes, 'date1904') ?? '');
    const part = tag === 'sheet' && worksheets.get(attribute(attributes, 'id') ?? '');
    if (!part) return;
    const name = unescaped(attribute(attributes, 'name') ?? '');
    sheets.push({ name, part, hidden: /hidden/i.test(attribute(attributes, 'state') ?? '') });
  };
  await readPart(zip, workbook, { open });
  const partOf = (kind: string): string | null =>
    relations.find((relation) => relation.kind === kind)?.part ?? null;
  return { sheets, from1904, strings: partOf('sharedStrings'), styles: partOf('styles') };
}

/** The texts that cells point at; of one in several hands all, of readings in another script none. */
export async function sharedStrings(
  zip: Zip,
  part: string | null,
  watch: Watch,
): Promise<string[]> {
  const texts: string[] = [];
  let [text, inText, inReading, length] = ['', false, false, 0];
  const turn = (on: boolean) => (tag: string) => {
    if (tag === 't') inText = on;
    else if (tag === 'rPh') inReading = on;
  };
  const [open, close] = [turn(true), turn(false)];
  const handlers: Handlers = {
    open: (tag) => {
      open(tag);
      if (tag === 'si') text = '';
    },
    close: (tag) => {
      close(tag);
      if (tag === 'si') texts.push(unescaped(text));
    },
    text: (raw) => {
      if (!inText || inReading) return;
      text += decoded(raw);
      length += raw.length;
      if (length > mostText) throw tooLarge(zip.file, 'holds more than 250 MB of text');
    },
  };
  if (part !== null) await readPart(zip, part, handlers, watch);
  return texts;
}

/** What the numbers of cells mean, by the style that the cell names. */
export async function meaningsOf(zip: Zip, part: string | null): Promise<Meaning[]> {
  const codes = new Map<number, string>();
  const meanings: Meaning[] = [];
  let inCells = false;
  const open = (tag: string, attributes: string): void => {
    const id = Number(attribute(attributes, 'numFmtId') ?? 0);
    if (tag === 'numFmt') codes.set(id, attribute(attributes, 'formatCode') ?? '');
    else if (tag === 'cellXfs') inCells = true;
    else if (tag === 'xf' && inCells) meanings.push(meaningOf(id, codes.get(id)));
  };
  const close = (tag: string): void => {
    if (tag === 'cellXfs') inCells = false;
  };
  if (part !== null) await readPart(zip, part, { open, close });
  return meanings;
}
