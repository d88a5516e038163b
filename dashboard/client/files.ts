import type { ByteSource } from '../../analysis/read/outcome.ts';
import type { Inputs } from '../../analysis/session-types.ts';

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
export interface WireInputs {
  readonly buildings: File;
  readonly walls?: File;
  readonly rain?: File;
  readonly demo?: boolean;
}

/** Throws where a source is not a File: nothing else can cross. */
export function toWire(inputs: Inputs): WireInputs {
  const { buildings, walls, rain, demo } = inputs;
  return {
    buildings: fileOf(buildings),
    ...(walls ? { walls: fileOf(walls) } : {}),
    ...(rain ? { rain: fileOf(rain) } : {}),
    ...(demo ? { demo } : {}),
  };
}

export function fromWire({ buildings, walls, rain, demo }: WireInputs): Inputs {
  return {
    buildings: fileSource(buildings),
    ...(walls ? { walls: fileSource(walls) } : {}),
    ...(rain ? { rain: fileSource(rain) } : {}),
    ...(demo ? { demo } : {}),
  };
}

function fileOf(source: ByteSource): File {
  if ('file' in source && source.file instanceof File) return source.file;
  throw new Error(`${source.name} is not a File`);
}
