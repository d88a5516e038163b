import type { Columns } from '../columns.ts';
import type { Plan } from '../mapping/plan.ts';
import type { ByteSource, ReadTable, Remark } from './outcome.ts';
import { empty, finished } from './store.ts';
import { type Open, type ReadOptions, reading, type TableForm } from './table.ts';

/** Accepted rows that are handed on before the file is read to its end, and what was said meanwhile. */
export interface TablePart {
  /** The columns that this file fills, and `row`; those it has not are left out. */
  readonly table: Columns;
  /** The user's own columns, those without a heading among them. */
  readonly extra: Columns;
  readonly setAside: readonly Remark[];
  readonly noted: readonly Remark[];
}

/** A file that was handed on in parts. `rowsRead = accepted + setAside + joined`, always. */
export interface ReadParts extends Omit<ReadTable, 'table' | 'extra' | 'setAside' | 'noted'> {
  readonly accepted: number;
  readonly setAside: number;
  readonly noted: number;
  /** Names of the user's own columns, but for those without a heading that hold nothing. */
  readonly extras: readonly string[];
}

function partOf({ form, readers, stored, store, extraStore, setAside, noted }: Open): TablePart {
  const cols = stored.map((index) => [form.rules[index]!.name, finished(store, index)] as const);
  const extra = (readers[0]?.plan.extras ?? []).map(
    ({ name }, i) => [name, finished(extraStore, i)] as const,
  );
  return {
    table: {
      n: store.n,
      cols: Object.fromEntries([...cols, ['row', finished(store, form.rules.length)]]),
    },
    extra: { n: store.n, cols: Object.fromEntries(extra) },
    setAside: setAside.splice(0),
    noted: noted.splice(0),
  };
}

/** Where parts of a table go, and how many rows they have at least. */
export interface PartTaker {
  readonly rows: number;
  readonly take: (part: TablePart) => Promise<void>;
}

/**
 * The same rows and remarks, in order, handed on in parts, so that no more than one is held. The form must not join a row
 * to an earlier one: that may be gone.
 */
export async function readTableParts(
  source: ByteSource,
  form: TableForm,
  plans: readonly Plan[],
  options: ReadOptions,
  taker: PartTaker,
): Promise<ReadParts> {
  const counts = { accepted: 0, setAside: 0, noted: 0 };
  const filled = new Set<string>();
  const handOn = async (opened: Open): Promise<void> => {
    const part = partOf(opened);
    empty(opened.store);
    empty(opened.extraStore);
    counts.accepted += part.table.n;
    counts.setAside += part.setAside.length;
    counts.noted += part.noted.length;
    for (const [name, column] of Object.entries(part.extra.cols)) {
      if (!filled.has(name) && column.some((text) => text !== null)) filled.add(name);
    }
    await taker.take(part);
  };
  const read = await reading(source, form, plans, options, (opened) =>
    opened.store.n + opened.setAside.length + opened.noted.length < taker.rows
      ? undefined
      : handOn(opened),
  );
  await handOn(read.opened);
  return {
    file: source.name,
    records: read.records,
    rowsRead: counts.accepted + counts.setAside,
    joined: 0,
    notes: read.notes,
    extras: (read.opened.readers[0]?.plan.extras ?? [])
      .filter(({ name, unnamed }) => !unnamed || filled.has(name))
      .map(({ name }) => name),
    ...counts,
  };
}
