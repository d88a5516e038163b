import { type Columns, cell, rowObject } from '../columns.ts';
import { outputCells, outputName, outputRow } from '../rank/output.ts';
import type { UnitSystem } from '../units.ts';

export type OutValue = number | string | null;

/** One column of a file. Its kind is known before its values are, so that it does not hang on them. */
export interface OutHead {
  readonly name: string;
  readonly kind: 'number' | 'text';
}

/** The ranking as rows and columns of a file, whatever the format. Rows are made when they are asked for. */
export interface OutTable {
  readonly n: number;
  /** No two names are alike, not even when case is ignored: some readers of Parquet do not see it. */
  readonly heads: readonly OutHead[];
  /** The values of row `i`, one for each head: finite numbers, well-formed texts, or null for no record. */
  readonly row: (i: number) => OutValue[];
}

/**
 * The output columns of the contract, then the user's own. `ranking` holds the rows in the order wanted, with the
 * building's ordinal `b`; row `b` of `extra` belongs to it. A column of the user's that is named as another gets
 * `_yours` behind its name.
 */
export function outTable(ranking: Columns, extra: Columns, units: UnitSystem): OutTable {
  const own = ownHeads(ranking, units);
  const theirs = Object.keys(extra.cols);
  const row = (i: number): OutValue[] => {
    const given = rowObject(ranking, i);
    return [
      ...outputCells(given, units),
      ...theirs.map((name) => cell(extra, name, given.b as number)),
    ].map(portable);
  };
  return { n: ranking.n, heads: [...own, ...theirHeads(own, extra)], row };
}

/** Rows by the batch: no format holds the whole table twice. */
export function* rowBatches({ n, row }: OutTable, size: number): Generator<OutValue[][]> {
  for (let from = 0; from < n; from += size) {
    yield Array.from({ length: Math.min(size, n - from) }, (_, i) => row(from + i));
  }
}

function ownHeads(ranking: Columns, units: UnitSystem): OutHead[] {
  const heads: OutHead[] = [];
  outputRow(rowObject(ranking, 0), units, (column, system) => {
    const plain = !column.value && ranking.cols[column.name] instanceof Float64Array;
    const name = outputName(column, system);
    heads.push({ name, kind: plain ? 'number' : 'text' });
    return name;
  });
  return heads;
}

function theirHeads(own: readonly OutHead[], { cols }: Columns): OutHead[] {
  const names = theirNames(
    own.map(({ name }) => name),
    Object.keys(cols),
  );
  return Object.values(cols).map((column, i) => ({
    name: names[i]!,
    kind: column instanceof Float64Array ? 'number' : 'text',
  }));
}

/** Names for columns of the user's beside ours, by their headings: one that is taken gets `_yours` behind it. */
export function theirNames(ours: readonly string[], headings: readonly string[]): string[] {
  const taken = new Set(ours.map((name) => name.toLowerCase()));
  return headings.map((heading) => {
    let name = wellFormed(heading) || 'unnamed';
    while (taken.has(name.toLowerCase())) name += '_yours';
    taken.add(name.toLowerCase());
    return name;
  });
}

/** Every format says the same: what only one of them could carry is put alike before any is written. */
function portable(value: OutValue): OutValue {
  if (typeof value === 'string') return wellFormed(value);
  return Number.isFinite(value) ? value : null;
}

/** Half of a surrogate pair is no character and has no UTF-8: it becomes U+FFFD, as decoders do. */
const wellFormed = (text: string): string =>
  // Few texts have any surrogate, and this is asked of every text of every row.
  /[\uD800-\uDFFF]/.test(text) ? text.replace(/\p{Surrogate}/gu, '\uFFFD') : text;
