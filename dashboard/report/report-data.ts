import { boundsOf } from '../../analysis/place/bounds.ts';
import type { Chase, Frame, TierArea } from '../../analysis/session-types.ts';
import type { UnitCosts } from '../../analysis/settings.ts';
import type { Desk } from '../state/desk.ts';
import { queryOf } from '../state/page-state.ts';
import type { RankRow } from '../state/rows.ts';
import { knownLand } from './ground.ts';
import { type MapMark, marksOf } from './map-marks.ts';
import { askOrigin, type Origin } from './origin.ts';
import { type Picture, pictureOf } from './picture.ts';
import { askTallies, type Tallies } from './tallies.ts';

/** Everything a report on the buildings shown prints. */
export interface ReportData {
  /** Buildings of the portfolio, shown or not. */
  readonly all: number;
  readonly tallies: Tallies;
  /** Null where no building shown has a place. */
  readonly map: {
    readonly picture: Picture;
    readonly marks: readonly MapMark[];
  } | null;
  /** The first of those shown, in the order in which they stand. */
  readonly rows: readonly RankRow[];
  readonly chase: Chase;
  readonly areas: readonly TierArea[];
  readonly costs: UnitCosts | null;
  readonly origin: Origin;
}

/** All of a short list are printed, of a longer one only the first. */
const mostListed = 100;
const firstListed = 50;

export const listed = (shown: number): number => (shown <= mostListed ? shown : firstListed);

const mapSize = { width: 680, maxHeight: 520, margin: 26 };

/** Asks for all that a report on the buildings shown prints: never more rows than it lists. */
export async function askReport(desk: Desk): Promise<ReportData> {
  const { session, state } = desk;
  const opened = session.opened();
  if (!opened) throw new Error('nothing is open');
  const { analyst } = session;
  const shown = await analyst.order(queryOf(state));
  return {
    all: opened.frame.n,
    tallies: await askTallies(analyst, opened.frame, shown),
    map: await mapOf(desk, opened.frame, shown),
    rows: await analyst.rows(shown.slice(0, listed(shown.length))),
    chase: await analyst.chase(),
    areas: await analyst.wallAreas(),
    costs: (session.changes().unit_costs ?? null) as UnitCosts | null,
    origin: await askOrigin(analyst, opened, session.changes()),
  };
}

async function mapOf(
  { session, state }: Desk,
  frame: Frame,
  shown: Int32Array,
): Promise<ReportData['map']> {
  const bounds = boundsOf(frame.longitude, frame.latitude, shown);
  if (!bounds) return null;
  const [land, sheet] = await Promise.all([knownLand(), session.analyst.rainSheet()]);
  return {
    picture: pictureOf(bounds, mapSize, land, sheet, state.units),
    marks: marksOf(frame, shown, bounds),
  };
}
