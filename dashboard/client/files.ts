import type { ByteSource } from '../../analysis/read/outcome.ts';

/** A File of the page as a source of bytes; the File itself is what crosses to the worker. */
export interface FileSource extends ByteSource {
  readonly file: File;
}

export const fileSource = (file: File): FileSource => ({
  name: file.name,
  size: file.size,
  file,
  bytes: () => chunks(file),
  slice: async (from, to) => new Uint8Array(await file.slice(from, to).arrayBuffer()),
});

async function* chunks(file: File): AsyncGenerator<Uint8Array> {
  const reader = file.stream().getReader();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      yield value;
    }
  } finally {
    await reader.cancel();
  }
}

const isPlain = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype;

/** Copies arrays and plain objects, with what `change` makes of their members; undefined leaves a member as it is. */
function copied(value: unknown, change: (value: unknown) => unknown): unknown {
  const changed = change(value);
  if (changed !== undefined) return changed;
  if (Array.isArray(value)) return value.map((member) => copied(member, change));
  if (!isPlain(value)) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, member]) => [name, copied(member, change)]),
  );
}

/** Arguments as they cross a thread: a source of bytes as its File. Throws where a source is not a File. */
export const toWire = (args: readonly unknown[]): unknown[] =>
  copied(args, (value) =>
    isPlain(value) && 'bytes' in value ? fileOf(value) : undefined,
  ) as unknown[];

/** What `toWire` made, back as it was. */
export const fromWire = (args: readonly unknown[]): unknown[] =>
  copied(args, (value) => (value instanceof File ? fileSource(value) : undefined)) as unknown[];

function fileOf(source: Record<string, unknown>): File {
  if (source.file instanceof File) return source.file;
  throw new Error(`${source.name} is not a File`);
}
