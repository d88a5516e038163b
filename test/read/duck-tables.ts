import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';

/** Files by name. */
export type Exports = Readonly<Record<string, Uint8Array>>;

/** What DuckDB, which shares no code with the reader, writes: of each query, with the options of its COPY. */
export async function exportsOf(
  wanted: Readonly<Record<string, readonly [query: string, options: string]>>,
): Promise<Exports> {
  const folder = mkdtempSync(join(tmpdir(), 'rainledger-tables-'));
  const instance = await DuckDBInstance.create(':memory:');
  const connection = await instance.connect();
  try {
    const files: Record<string, Uint8Array> = {};
    for (const [name, [query, options]] of Object.entries(wanted)) {
      const path = join(folder, name);
      await connection.run(`COPY (${query}) TO '${path}' (${options})`);
      files[name] = new Uint8Array(readFileSync(path));
    }
    return files;
  } finally {
    connection.closeSync();
    instance.closeSync();
    rmSync(folder, { recursive: true });
  }
}
