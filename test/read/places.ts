import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { csvParse } from 'd3';
import { postalCentroids } from '../../analysis/place/postal.ts';
import { isBlank, numberReader } from '../../analysis/read/cells.ts';
import type { Mend } from '../../analysis/read/outcome.ts';
import { isComplaint, placeBuilding } from '../../analysis/read/placing.ts';
import type { Complaint } from '../../analysis/read/sentences.ts';
import type { Place } from '../../analysis/read/whereabouts.ts';
import { buildPostal } from '../../data/postal/build.ts';

export const postal = postalCentroids(buildPostal().buffer);

export type Cells = Readonly<
  Partial<Record<'latitude' | 'longitude' | 'region' | 'postal_code', string>>
>;

const degrees = numberReader('degrees', { asOf: 2026, decimalComma: false });
const angle = (text: string): number => (isBlank(text) ? Number.NaN : degrees(text));

/** Places a row of these cells. */
export const place = (cells: Cells): Place | Complaint => {
  const { latitude = '', longitude = '' } = cells;
  return placeBuilding(
    {
      latitudeText: latitude,
      longitudeText: longitude,
      latitude: angle(latitude),
      longitude: angle(longitude),
      region: cells.region ?? null,
      postalCode: cells.postal_code ?? null,
    },
    postal,
  );
};

/** The place of a row that is accepted. Throws when it is not. */
export function accepted(cells: Cells): Place {
  const found = place(cells);
  if (isComplaint(found)) throw new Error(`set aside: ${found.says}`);
  return found;
}

/** Why a row is set aside. Throws when it is accepted. */
export function reason(cells: Cells): Complaint {
  const found = place(cells);
  if (!isComplaint(found)) throw new Error(`accepted at ${found.latitude}, ${found.longitude}`);
  return found;
}

/** The mend offered for a row. Throws when there is none. */
export function mendFor(cells: Cells): Mend {
  const { mend, says } = reason(cells);
  if (!mend) throw new Error(`no mend: ${says}`);
  return mend;
}

/** The row after its mend: the cells the user would have. */
export const mended = (cells: Cells): Cells => ({ ...cells, ...mendFor(cells).cells });

const folder = join(dirname(createRequire(import.meta.url).resolve('vega-datasets')), '../data');
/** A table of npm vega-datasets. */
export const vega = (name: string) => csvParse(readFileSync(join(folder, name), 'utf8'));
