import { readFileSync } from 'node:fs';
import { csvParseRows } from 'd3';
import type { Remark } from '../../analysis/read/outcome.ts';
import { recordBatches } from '../../analysis/read/records.ts';
import { sourceOf } from './sources.ts';

export const fixture = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(`test/reference/tables/${name}`));

/** All that a table file is read to. */
export interface Read {
  readonly records: string[][];
  readonly rows: number[];
  readonly notes: string[];
  readonly remarks: Remark[];
  readonly decimalComma: boolean;
}

export async function tableOf(
  name: string,
  content: string | Uint8Array,
  { sheet, sizes }: { sheet?: string; sizes?: readonly number[] } = {},
): Promise<Read> {
  const records: string[][] = [];
  const rows: number[] = [];
  const notes: string[] = [];
  const remarks: Remark[] = [];
  let decimalComma = false;
  for await (const batch of recordBatches(sourceOf(name, content, sizes), { sheet })) {
    records.push(...batch.records.map((record) => [...record]));
    rows.push(...batch.rows);
    notes.push(...batch.notes);
    remarks.push(...batch.remarks);
    decimalComma = batch.decimalComma;
  }
  return { records, rows, notes, remarks, decimalComma };
}

/** Records all as wide as the first. */
export const squared = (records: readonly (readonly string[])[]): string[][] =>
  records.map((record) => records[0]!.map((_, i) => record[i] ?? ''));

/** A CSV twin as d3 reads it, without its blank rows. */
export const twinOf = (text: string): string[][] =>
  csvParseRows(text).filter((record) => record.some((cell) => cell !== ''));

export const twin = (name: string): string[][] =>
  twinOf(readFileSync(`test/reference/tables/${name}`, 'utf8'));
