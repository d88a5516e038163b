import { type Columns, cell, rowObject } from '../columns.ts';
import type { Constants } from '../constants.ts';
import type { Engine, Param } from '../engine/port.ts';
import type { Portfolio } from '../inputs.ts';
import type { RainAtBuildings } from '../rain/at-buildings.ts';
import type { MadeRain } from '../rain/making.ts';
import { referenceRows } from '../reference.ts';
import type { LedgerNode } from '../session-types.ts';

/** What a derivation is told from: the tables of the run, its settings, and the inputs as read. */
export interface Run {
  readonly engine: Engine;
  readonly settings: Constants;
  readonly portfolio: Portfolio;
  readonly making: MadeRain;
  readonly rain: RainAtBuildings;
}

export type Row = Readonly<Record<string, number | string | null>>;

/** All rows of a statement as plain objects. */
export async function rowsOf(
  engine: Engine,
  text: string,
  params: readonly Param[],
): Promise<Row[]> {
  const table = await engine.query(text, params);
  return Array.from({ length: table.n }, (_, i) => rowObject(table, i));
}

/** The one row of a statement; throws where there is none, which is a mistake in our code. */
export async function rowOf(engine: Engine, text: string, params: readonly Param[]): Promise<Row> {
  const [row] = await rowsOf(engine, text, params);
  if (!row) throw new Error(`no row for ${text}`);
  return row;
}

/** A constant or setting with its unit, source and, where the user changed it, the shipped value. */
export function constantNode(settings: Constants, name: string, label = name): LedgerNode {
  const row = referenceRows('constants').find((candidate) => candidate.name === name);
  if (!row) throw new Error(`no constant ${name}`);
  const value = settings[name]!;
  const changed = Number(row.value) === value ? {} : { note: `changed from ${row.value}` };
  return {
    label,
    value,
    unit: row.unit!,
    source: `data/constants.csv, ${name}: ${row.source}`,
    ...changed,
  };
}

/** A cell of the building list. */
export function buildingFact(
  { portfolio }: Run,
  b: number,
  column: string,
  unit?: string,
): LedgerNode {
  if (column === 'mean_temp_c' && cell(portfolio.buildings, 'mean_temp_of_grid', b) === 1) {
    const value = cell(portfolio.buildings, column, b);
    return {
      label: column,
      value,
      unit: '°C',
      source: `${portfolio.inputs.temperature!.name}, at the building`,
    };
  }
  return factNode(portfolio.inputs.buildings.name, portfolio.buildings, b, column, unit);
}

function factNode(
  file: string,
  table: Columns,
  i: number,
  column: string,
  unit?: string,
): LedgerNode {
  const value = cell(table, column, i);
  const row = cell(table, 'row', i);
  return {
    label: column,
    value,
    ...(unit && value !== null ? { unit } : {}),
    source: `${file}, row ${row}, ${column}${value === null ? ': no record' : ''}`,
  };
}

/** A cell of a wall record; a wall that no record describes says so. */
export function wallFact(
  { portfolio }: Run,
  wall: Row,
  column: string,
  value: Row[string],
  unit?: string,
): LedgerNode {
  const recorded = wall.kind === 'recorded';
  return {
    label: column,
    value: value ?? null,
    ...(unit && value !== null ? { unit } : {}),
    source: recorded
      ? `${portfolio.wallFiles[Number(wall.file)]}, row ${wall.row}, ${column}${value === null ? ': no record' : ''}`
      : 'no wall record: this fact is open',
  };
}

/** Weights (whole numbers) as shares of their sum. */
export function sharesOf(rows: readonly Row[], column = 'weight'): number[] {
  const total = rows.reduce((sum, row) => sum + Number(row[column]), 0);
  return rows.map((row) => Number(row[column]) / total);
}
