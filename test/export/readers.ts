import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inflateRawSync } from 'node:zlib';
import { DuckDBInstance, type JS } from '@duckdb/node-api';
import readXlsxFile from 'read-excel-file/node';

type Row = Record<string, JS>;

/** What DuckDB, which shares no code with our writers, finds in a file. `$file` in the statement is its path. */
export async function duck(bytes: Uint8Array, ending: string, sql: string): Promise<Row[]> {
  const folder = mkdtempSync(join(tmpdir(), 'rainledger-export-'));
  const file = join(folder, `ranking.${ending}`);
  writeFileSync(file, bytes);
  const instance = await DuckDBInstance.create(':memory:');
  const connection = await instance.connect();
  try {
    const result = await connection.run(sql.replace('$file', `'${file}'`));
    return await result.getRowObjectsJS();
  } finally {
    connection.closeSync();
    instance.closeSync();
    rmSync(folder, { recursive: true });
  }
}

export const csvRows = (bytes: Uint8Array): Promise<Row[]> =>
  duck(
    bytes,
    'csv',
    `SELECT * FROM read_csv($file, header = true, all_varchar = true, delim = ',', quote = '"', escape = '"', new_line = '\\r\\n')`,
  );

export const parquetRows = (bytes: Uint8Array): Promise<Row[]> =>
  duck(bytes, 'parquet', 'SELECT * FROM read_parquet($file)');

/** Sheets by name, as rows of cells. */
export async function sheets(bytes: Uint8Array) {
  const found = await readXlsxFile(Buffer.from(bytes), { trim: false });
  return Object.fromEntries(found.map(({ sheet, data }) => [sheet, data]));
}

interface Entry {
  readonly text: string;
  /** Time and date as DOS writes them (APPNOTE 4.4.6). */
  readonly stamp: number;
}

/** The entries of a ZIP by its central directory (APPNOTE 4.3.12), inflated by zlib. */
export function entries(bytes: Uint8Array): Map<string, Entry> {
  const zip = Buffer.from(bytes);
  const end = zip.lastIndexOf('PK\x05\x06', undefined, 'latin1');
  const found = new Map<string, Entry>();
  let at = zip.readUInt32LE(end + 16);
  for (let left = zip.readUInt16LE(end + 10); left > 0; left--) {
    const [packed, name, extra, note] = [20, 28, 30, 32].map((offset, i) =>
      i === 0 ? zip.readUInt32LE(at + offset) : zip.readUInt16LE(at + offset),
    ) as [number, number, number, number];
    const local = zip.readUInt32LE(at + 42);
    const from = local + 30 + zip.readUInt16LE(local + 26) + zip.readUInt16LE(local + 28);
    found.set(zip.toString('utf8', at + 46, at + 46 + name), {
      text: inflateRawSync(zip.subarray(from, from + packed)).toString('utf8'),
      stamp: zip.readUInt32LE(at + 12),
    });
    at += 46 + name + extra + note;
  }
  return found;
}
