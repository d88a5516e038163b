import { readFileSync } from 'node:fs';
import { memorySource } from '../../analysis/read/memory-source.ts';
import type { ByteSource } from '../../analysis/read/outcome.ts';

const folder = new URL('../reference/grids/', import.meta.url);

/** A grid file of test/reference/grids (made by make.py there). */
export const gridBytes = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(new URL(name, folder)));
export const gridSource = (name: string): ByteSource => memorySource(name, gridBytes(name));

/** What GDAL reads in a file: nodes are every eleventh of the file, [longitude, latitude, value by band or time step]. */
export interface Reading {
  readonly width: number;
  readonly height: number;
  readonly nodes: readonly (readonly [number, number, readonly (number | null)[]])[];
  readonly between?: readonly (readonly [number, number, number])[];
}

/** GDAL's readings (readings.json, by make.py). */
export const readings: {
  readonly gdal: string;
  readonly files: Readonly<Record<string, Reading>>;
  readonly projections: Readonly<Record<string, readonly [number, number, number, number]>>;
} = JSON.parse(readFileSync(new URL('readings.json', folder), 'utf8'));

/** Counts the bytes that are asked of a file. */
export function counting(source: ByteSource) {
  const asked = { bytes: 0, calls: 0 };
  const add = (n: number) => {
    asked.bytes += n;
    asked.calls += 1;
  };
  const counted: ByteSource = {
    ...source,
    async *bytes() {
      for await (const piece of source.bytes()) {
        add(piece.length);
        yield piece;
      }
    },
    slice: async (from, to) => {
      add(to - from);
      return source.slice(from, to);
    },
  };
  return { source: counted, asked };
}
