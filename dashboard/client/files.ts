import type { ByteSource } from '../../analysis/read/outcome.ts';
import type { Inputs, Role } from '../../analysis/session-types.ts';

/** A File of the page as a source of bytes; the File itself is what crosses to the worker. */
export interface FileSource extends ByteSource {
  readonly file: File;
}

export const fileSource = (file: File): FileSource => ({
  name: file.name,
  size: file.size,
  file,
  bytes: () => chunks(file),
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

/** Inputs as they cross a thread. */
export interface WireInputs extends Readonly<Partial<Record<Role, File>>> {
  readonly buildings: File;
  readonly demo?: boolean;
}

/** The files that may stand beside the building list. */
const beside = ['walls', 'rain', 'stations', 'weather'] as const;

/** Throws where a source is not a File: nothing else can cross. */
export function toWire(inputs: Inputs): WireInputs {
  const files = beside.flatMap((role) => {
    const source = inputs[role];
    return source ? [[role, fileOf(source)]] : [];
  });
  return {
    buildings: fileOf(inputs.buildings),
    ...Object.fromEntries(files),
    ...(inputs.demo ? { demo: true } : {}),
  };
}

export function fromWire(wire: WireInputs): Inputs {
  const sources = beside.flatMap((role) => {
    const file = wire[role];
    return file ? [[role, fileSource(file)]] : [];
  });
  return {
    buildings: fileSource(wire.buildings),
    ...Object.fromEntries(sources),
    ...(wire.demo ? { demo: true } : {}),
  };
}

function fileOf(source: ByteSource): File {
  if ('file' in source && source.file instanceof File) return source.file;
  throw new Error(`${source.name} is not a File`);
}
