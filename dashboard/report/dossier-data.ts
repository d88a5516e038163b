import type { Bounds } from '../../analysis/place/bounds.ts';
import type { BuildingDetail, Edit } from '../../analysis/session-types.ts';
import { type Entry, registerOf } from '../findings/register.ts';
import type { Desk } from '../state/desk.ts';
import type { Opened } from '../state/session.ts';
import { knownLand } from './ground.ts';
import { askOrigin, type Origin } from './origin.ts';
import { type Picture, pictureOf } from './picture.ts';

/** Everything a dossier prints. */
export interface DossierData {
  readonly detail: BuildingDetail;
  /** Buildings of the portfolio that have a rank. */
  readonly ranked: number;
  readonly wettingMax: number;
  /** The file that the building's own record was read from. */
  readonly file: string;
  /** Cells of its records that were corrected in the page. */
  readonly edits: readonly Edit[];
  readonly findings: readonly Entry[];
  /** Null where the building has no place. */
  readonly picture: Picture | null;
  readonly origin: Origin;
}

/** Half the height of the locator map, degrees: about 200 km to each side. */
const reach = 1.8;
const locatorSize = { width: 300, maxHeight: 210, margin: 0 };

/** Asks for all that the dossier of building `b` prints. */
export async function askDossier(desk: Desk, b: number): Promise<DossierData> {
  const { session } = desk;
  const opened = session.opened();
  if (!opened) throw new Error('nothing is open');
  const { analyst } = session;
  const detail = await analyst.building(b);
  const [origin, picture] = await Promise.all([
    askOrigin(analyst, opened, session.changes()),
    locator(desk, detail),
  ]);
  return {
    detail,
    ranked: opened.frame.n - opened.frame.counts.tier['Not scored'],
    wettingMax: opened.frame.wettingMax,
    file: opened.inputs.buildings.name,
    edits: editsIn(opened, detail),
    findings: findingsOf(desk, String(detail.row.building_id)),
    picture,
    origin,
  };
}

async function locator({ session, state }: Desk, { row }: BuildingDetail): Promise<Picture | null> {
  const { longitude, latitude } = row;
  if (typeof longitude !== 'number' || typeof latitude !== 'number') return null;
  const [land, sheet] = await Promise.all([knownLand(), session.analyst.rainSheet()]);
  return pictureOf(around(longitude, latitude), locatorSize, land, sheet, state.units, [
    longitude,
    latitude,
  ]);
}

/** Degrees around a place that fill the locator map. */
function around(longitude: number, latitude: number): Bounds {
  const { width, maxHeight } = locatorSize;
  const wide = (reach * width) / maxHeight / Math.max(0.2, Math.cos((latitude * Math.PI) / 180));
  return {
    west: longitude - wide,
    east: longitude + wide,
    south: Math.max(-89, latitude - reach),
    north: Math.min(89, latitude + reach),
  };
}

/** Corrections to the building's own record and to those of its walls. */
function editsIn({ inputs }: Opened, { record, walls }: BuildingDetail): Edit[] {
  const own = new Set([
    `${inputs.buildings.name} ${record.row}`,
    ...walls.map(({ file, row }) => `${file} ${row}`),
  ]);
  return (inputs.edits ?? []).filter(({ file, row }) => own.has(`${file} ${row}`));
}

const findingsOf = ({ survey }: Desk, id: string): Entry[] =>
  registerOf(survey.findings(), survey.logged(), survey.plans()).filter(
    ({ cells }) => cells.building_id === id,
  );
