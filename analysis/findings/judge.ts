import type { RowInHand } from '../read/row.ts';
import { indexIn } from '../read/schema.ts';
import { type Complaint, clip, quote } from '../read/sentences.ts';
import type { TableForm } from '../read/table.ts';
import { findingColumns } from './columns.ts';

/** Identifiers of the accepted walls by accepted building; null where any wall of it will do. */
export interface KnownWalls {
  readonly get: (building: string) => ReadonlySet<string> | null | undefined;
}

const at = indexIn(findingColumns);
const buildingId = at('building_id');
const wallId = at('wall_id');
const method = at('method');
const seen = at('sheathing_seen');
const condition = at('condition');
const moisture = at('moisture_pct');
const scale = at('reading_scale');
const notAccessible = at('not_accessible');

function complaint(
  hand: RowInHand,
  index: number,
  code: string,
  says: string,
  cells?: Readonly<Record<string, string>>,
): Complaint {
  const cell = { column: findingColumns[index]!.name, value: hand.raw[index]!, code, says };
  return cells ? { ...cell, mend: { says: 'Write no under sheathing_seen', cells } } : cell;
}

function judgePlace(hand: RowInHand, walls: KnownWalls): Complaint | null {
  const building = hand.text[buildingId];
  const wall = hand.text[wallId];
  if (!building) {
    const says = 'building_id is blank. Say which building of the building list was looked at.';
    return complaint(hand, buildingId, 'blank-id', says);
  }
  const known = walls.get(building);
  if (known === undefined) {
    const says = `no building ${clip(building)} in the building list. Correct building_id, or add the building; if its row was set aside there, correct that row.`;
    return complaint(hand, buildingId, 'orphan', says);
  }
  if (!wall) {
    const says = `wall_id is blank. Say which wall of building ${clip(building)} was looked at.`;
    return complaint(hand, wallId, 'blank-wall', says);
  }
  if (known === null || known.has(wall)) return null;
  const says = `building ${clip(building)} has no wall ${clip(wall)}. Correct wall_id, or add the wall to the cladding records.`;
  return complaint(hand, wallId, 'orphan-wall', says);
}

function judgeSight(hand: RowInHand): Complaint | null {
  if (hand.text[seen] !== 'yes') return null;
  if (hand.text[notAccessible] === 'yes') {
    const says =
      'not_accessible says that the wall could not be reached, and sheathing_seen that its sheathing was seen. Correct one of the two.';
    return complaint(hand, notAccessible, 'seen-not-accessible', says);
  }
  if (hand.text[method] === 'opening') return null;
  const how = hand.text[method] ? `the method is ${hand.text[method]}` : 'the method is blank';
  const says = `sheathing_seen is yes, but ${how}, and only an opening shows the sheathing. Write opening as the method if the wall was opened, else no under sheathing_seen.`;
  return complaint(hand, seen, 'seen-unopened', says, { sheathing_seen: 'no' });
}

/** What an accepted row leaves open, so that its owner can complete it. */
function noteGaps(hand: RowInHand): void {
  if (hand.text[seen] === 'yes' && !hand.text[condition]) {
    const says =
      'the sheathing was seen but no condition is on record, so the row answers nothing. Write sound, stained, softened or decayed under condition.';
    hand.notes.push(complaint(hand, condition, 'no-condition', says));
  }
  if (hand.text[method] === 'opening' && hand.text[condition] && hand.raw[seen] === '') {
    const says = `an opening with condition ${quote(hand.text[condition])}, but sheathing_seen is blank, so it is not counted as seen. Write yes if the sheathing itself was seen.`;
    hand.notes.push(complaint(hand, seen, 'seen-blank', says));
  }
  if (!Number.isNaN(hand.number[moisture]!) && !hand.text[scale]) {
    const says = `moisture_pct ${quote(hand.raw[moisture]!)} has no reading_scale, so it cannot be compared. Write wood_equivalent or relative.`;
    hand.notes.push(complaint(hand, scale, 'no-scale', says));
  }
}

/**
 * Sets a finding aside that names no wall of the portfolio, or that saw the sheathing without an opening or without
 * access; notes what else its row leaves open.
 */
export const findingJudge =
  (walls: KnownWalls): TableForm['judge'] =>
  (hand) => {
    const verdict = judgePlace(hand, walls) ?? hand.impossible ?? judgeSight(hand);
    if (!verdict) noteGaps(hand);
    return verdict;
  };
