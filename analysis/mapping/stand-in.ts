import { readNumber } from '../read/number-text.ts';
import type { Candidate } from './candidates.ts';
import { isUnique, type Profile, share } from './profile.ts';
import type { Fill, Settled } from './shape.ts';

/** Columns that may stand in for an identifier where all their values differ, the best first. */
const standIns: readonly { readonly column: string; readonly least: number }[] = [
  { column: 'name', least: 1 },
  { column: 'address', least: 1 },
  { column: 'postal_code', least: 20 },
  { column: 'city', least: 20 },
];

/** Confidence in an identifier that no heading names: always to be looked at. */
const doubtful = 0.3;

/** Short codes, not amounts or coordinates. */
const isCode = ({ values }: Profile): boolean =>
  share(
    values,
    (text) =>
      text.length <= 30 &&
      !/^[-+]?\d*[.,]\d+$/.test(text) &&
      !/[$€£]/.test(text) &&
      !/ .* /.test(text),
  ) >= 0.9;

/** Codes with few characters are likelier than texts, and a key column is full. */
const byLikeness = (a: Profile, b: Profile): number =>
  Number(b.distinct.size - a.distinct.size) ||
  Number(isName(a)) - Number(isName(b)) ||
  (a.key < b.key ? -1 : Number(a.key > b.key));

const isName = ({ values }: Profile): boolean => share(values, (text) => / /.test(text)) > 0.5;

const isWhole = ({ values }: Profile): boolean =>
  share(values, (text) => Number.isNaN(readNumber(text, false)) || /^\d+$/.test(text)) >= 0.99;

/** A column that fills nothing and could name the buildings. */
function freeColumn(
  profiles: readonly Profile[],
  { fills }: Settled,
  table: 'building' | 'wall',
): Profile | undefined {
  const taken = new Set(fills.map(({ from }) => from.profile.position));
  return profiles
    .filter(
      (profile) => !taken.has(profile.position) && !profile.elsewhere && profile.filled >= 0.9,
    )
    .filter((profile) => isCode(profile) && isWhole(profile))
    .filter((profile) =>
      table === 'building' ? isUnique(profile) : profile.silent && profile.distinct.size > 1,
    )
    .toSorted(byLikeness)[0];
}

const places = new Set(['latitude', 'longitude']);

/** A name, address or the like that fills its own column and is better used as the identifier. */
function usedColumn({ shape, fills }: Settled): Fill | undefined {
  const placed = fills.filter(({ column }) => places.has(column)).length === places.size;
  return standIns
    .filter(({ column }) => column !== 'postal_code' || placed)
    .flatMap(({ column, least }) => {
      const fill = fills.find((one) => one.table === 'building' && one.column === column);
      const fits =
        fill &&
        (shape === 'wall rows' || isUnique(fill.from.profile)) &&
        fill.from.profile.values.length >= least;
      return fits ? [fill] : [];
    })[0];
}

const standing = (profile: Profile, table: 'building' | 'wall', why: string): Fill => {
  const from: Candidate = {
    profile,
    table,
    column: 'building_id',
    rank: 0,
    group: null,
    unit: null,
    unitGuessed: false,
    confidence: doubtful,
    why,
  };
  return { from, table, column: 'building_id', wall: null };
};

/** Where no column is named as the identifier, the likeliest one stands in for it, and says so. */
export function withIdentifier(shaped: Settled, profiles: readonly Profile[]): Settled {
  const table = shaped.of;
  if (shaped.fills.some(({ column }) => column === 'building_id')) return shaped;
  const free = freeColumn(profiles, shaped, table);
  if (free) {
    const why =
      table === 'building'
        ? 'no column is named as an identifier, and no two values of this one are the same'
        : 'no column is named as an identifier, and its values are codes';
    return { ...shaped, fills: [...shaped.fills, standing(free, table, why)] };
  }
  const used = table === 'building' ? usedColumn(shaped) : undefined;
  if (!used) return shaped;
  const why = `no column is named as an identifier, so the ${used.column.replace('_', ' ')} stands in for it`;
  const rest = shaped.fills.filter((fill) => fill !== used);
  return { ...shaped, fills: [...rest, standing(used.from.profile, 'building', why)] };
}
