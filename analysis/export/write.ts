import Papa from 'papaparse';
import { type Columns, cell, rowObject } from '../columns.ts';
import type { OutputRow } from '../rank/output.ts';
import { outputName, outputRow } from '../rank/output.ts';
import type { ExportFormat } from '../session-types.ts';
import type { UnitSystem } from '../units.ts';

/**
 * The ranking as the text of a file. `ranking` holds the rows in the order wanted, `extra` the user's own columns
 * (row b belongs to building b), which follow at the end; one that shares a name with ours gets `_yours` behind it.
 */
export function rankingText(
  ranking: Columns,
  extra: Columns,
  format: ExportFormat,
  units: UnitSystem,
): string {
  const rows = Array.from({ length: ranking.n }, (_, i) => {
    const row = rowObject(ranking, i);
    return withExtra(outputRow(row, units, outputName), extra, row.b as number);
  });
  return writers[format](rows);
}

function withExtra(row: OutputRow, extra: Columns, b: number): OutputRow {
  const own = Object.keys(extra.cols).map((name) => [
    name in row ? `${name}_yours` : name,
    cell(extra, name, b),
  ]);
  return { ...row, ...Object.fromEntries(own) };
}

const writers: Readonly<Record<ExportFormat, (rows: readonly OutputRow[]) => string>> = {
  csv: csvText,
  json: (rows) => `${JSON.stringify(rows, null, 1)}\n`,
  geojson: geojsonText,
};

/** RFC 4180 text; a cell that a spreadsheet would take for a formula is disarmed with an apostrophe. */
function csvText(rows: readonly OutputRow[]): string {
  const names = Object.keys(rows[0] ?? {});
  const cells = rows.map((row) => names.map((name) => row[name] ?? ''));
  return `${Papa.unparse([names, ...cells], { newline: '\r\n', escapeFormulae: true })}\r\n`;
}

/** RFC 7946: one point a building. */
function geojsonText(rows: readonly OutputRow[]): string {
  const features = rows.map(({ latitude, longitude, ...properties }) => ({
    type: 'Feature',
    geometry: { type: 'Point', coordinates: [longitude, latitude] },
    properties,
  }));
  return `${JSON.stringify({ type: 'FeatureCollection', features }, null, 1)}\n`;
}
