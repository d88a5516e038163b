import constantsCsv from '../data/constants.csv?raw';
import depositionCsv from '../data/deposition_factor.csv?raw';
import drainageCsv from '../data/drainage.csv?raw';
import exposureCsv from '../data/exposure_factor.csv?raw';
import factsCsv from '../data/facts.csv?raw';
import materialsCsv from '../data/materials.csv?raw';
import adequacyCsv from '../data/priors/adequacy.csv?raw';
import priorDrainageCsv from '../data/priors/drainage.csv?raw';
import eraCsv from '../data/priors/era.csv?raw';
import priorHeightCsv from '../data/priors/height.csv?raw';
import priorInstalledCsv from '../data/priors/installed.csv?raw';
import priorMaterialCsv from '../data/priors/material.csv?raw';
import priorOrientationCsv from '../data/priors/orientation.csv?raw';
import priorRoofCsv from '../data/priors/roof.csv?raw';
import priorRunoffCsv from '../data/priors/runoff.csv?raw';
import priorSheathingCsv from '../data/priors/sheathing.csv?raw';
import priorTerrainCsv from '../data/priors/terrain.csv?raw';
import priorWindCsv from '../data/priors/wind.csv?raw';
import recordSourceCsv from '../data/record_source.csv?raw';
import editionsCsv from '../data/rules/editions.csv?raw';
import rulesCsv from '../data/rules/rules.csv?raw';
import sheathingCsv from '../data/sheathing.csv?raw';
import type { Column, Columns } from './columns.ts';
import { csvTable } from './csv-table.ts';

export type ReferenceRow = Readonly<Record<string, string>>;

/** One table of data/: what is true before any user comes. Every row names its source. */
export interface ReferenceTable {
  /** Name of the table in the engine. */
  readonly id: string;
  /** File under data/. */
  readonly file: string;
  readonly title: string;
  readonly rows: readonly ReferenceRow[];
}

export const table = (id: string, file: string, title: string, text: string): ReferenceTable => ({
  id,
  file,
  title,
  rows: csvTable(text),
});

/** The tables that statements read, in the order in which the Method view shows them; of side files: side-reference.ts. */
export const referenceTables: readonly ReferenceTable[] = [
  table('constants', 'constants.csv', 'Constants and settings', constantsCsv),
  table(
    'exposure_factor',
    'exposure_factor.csv',
    'Exposure factor F_E by height and terrain',
    exposureCsv,
  ),
  table(
    'deposition_factor',
    'deposition_factor.csv',
    'Deposition factor F_D by roof and runoff',
    depositionCsv,
  ),
  table('materials', 'materials.csv', 'Cladding materials', materialsCsv),
  table('drainage', 'drainage.csv', 'Layers behind the cladding', drainageCsv),
  table('sheathing', 'sheathing.csv', 'Sheathing and its susceptibility', sheathingCsv),
  table('rules', 'rules/rules.csv', 'Rules that ask for drainage', rulesCsv),
  table('editions', 'rules/editions.csv', 'Editions of the codes', editionsCsv),
  table('facts', 'facts.csv', 'Facts that may be missing', factsCsv),
  table('record_source', 'record_source.csv', 'Which record of a wall stands', recordSourceCsv),
  table('prior_terrain', 'priors/terrain.csv', 'Terrain, where not on record', priorTerrainCsv),
  table('prior_height', 'priors/height.csv', 'Height class, where not on record', priorHeightCsv),
  table('prior_roof', 'priors/roof.csv', 'Roof, where not on record', priorRoofCsv),
  table('prior_runoff', 'priors/runoff.csv', 'Runoff, where not on record', priorRunoffCsv),
  table(
    'prior_wind',
    'priors/wind.csv',
    'Wind during rain U, without a weather record',
    priorWindCsv,
  ),
  table(
    'prior_orientation',
    'priors/orientation.csv',
    'Orientation, where not on record and the wind is',
    priorOrientationCsv,
  ),
  table('prior_material', 'priors/material.csv', 'Material, where not on record', priorMaterialCsv),
  table(
    'prior_installed',
    'priors/installed.csv',
    'Year of installation, where not on record',
    priorInstalledCsv,
  ),
  table('prior_era', 'priors/era.csv', 'Eras of the priors', eraCsv),
  table('prior_drainage', 'priors/drainage.csv', 'Drainage, where not on record', priorDrainageCsv),
  table(
    'prior_sheathing',
    'priors/sheathing.csv',
    'Sheathing, where not on record',
    priorSheathingCsv,
  ),
  table(
    'prior_adequacy',
    'priors/adequacy.csv',
    'Adequacy of a layer whose gap is not on record',
    adequacyCsv,
  ),
];

/** The rows of one table. Throws on an unknown name: a mistake in our code. */
export function referenceRows(id: string): readonly ReferenceRow[] {
  const found = referenceTables.find((candidate) => candidate.id === id);
  if (!found) throw new Error(`no table ${id} in data/`);
  return found.rows;
}

/** A reference table as columns: numbers where every filled cell is a number, else texts. */
export function referenceColumns(rows: readonly ReferenceRow[]): Columns {
  const cols: Record<string, Column> = {};
  for (const name of Object.keys(rows[0] ?? {})) {
    const cells = rows.map((row) => row[name] ?? '');
    const numeric = cells.every((value) => value === '' || Number.isFinite(Number(value)));
    cols[name] =
      numeric && cells.some((value) => value !== '')
        ? Float64Array.from(cells, (value) => (value === '' ? Number.NaN : Number(value)))
        : cells.map((value) => value || null);
  }
  return { n: rows.length, cols };
}
