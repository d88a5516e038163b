import { agreesWithPostal, type Evidence, nearLatitude } from '../place/coordinates.ts';
import { kmFrom, type PostalArea } from '../place/postal.ts';
import type { Region } from '../place/regions.ts';
import type { Axis } from './degrees.ts';
import type { Mend } from './outcome.ts';
import { type Complaint, clip, quote } from './sentences.ts';
import type { Correction, Reading, Slip } from './slips.ts';
import type { PostalRecord, Whereabouts } from './whereabouts.ts';

const axes: readonly Axis[] = ['latitude', 'longitude'];

const textAt = (at: Whereabouts, axis: Axis): string =>
  axis === 'latitude' ? at.latitudeText : at.longitudeText;

/** Its code, column and cell, with a mend where there is one. */
function complain(
  at: Whereabouts,
  axis: Axis,
  code: string,
  says: string,
  mend: Mend | null,
): Complaint {
  return { column: axis, value: textAt(at, axis), code, says, ...(mend ? { mend } : {}) };
}

/** Clears the coordinates, so that the postal code places the building. */
function mendByPostalCode(by: PostalRecord | null): Mend | null {
  if (!by) return null;
  const km = Math.max(1, Math.round(by.area.radiusKm));
  const says = `Leave latitude and longitude empty: postal code ${by.code} places the building within about ${km} km`;
  return { says, cells: { latitude: '', longitude: '' } };
}

export function zeros(at: Whereabouts, by: PostalRecord | null): Complaint {
  const instead = by
    ? `leave both empty to place it by postal code ${by.code}`
    : 'leave both empty and give its postal code';
  const says = `latitude and longitude are both 0, a point at sea. Give the coordinates of the building, or ${instead}.`;
  return complain(at, 'latitude', 'zero-coordinates', says, mendByPostalCode(by));
}

export function notNumbers(at: Whereabouts, by: PostalRecord | null): Complaint {
  const axis = Number.isNaN(at.latitude) ? 'latitude' : 'longitude';
  const says = `${axis} ${quote(textAt(at, axis))} is not a number. Write decimal degrees such as 47.61 and -122.33.`;
  return complain(at, axis, 'coordinates-not-numbers', says, mendByPostalCode(by));
}

export function notOnGlobe(at: Whereabouts, by: PostalRecord | null): Complaint {
  const axis = Math.abs(at.latitude) > 90 ? 'latitude' : 'longitude';
  const [most, example] = axis === 'latitude' ? [90, '47.61'] : [180, '-122.33'];
  const says = `${axis} ${quote(textAt(at, axis))} is not between -${most} and ${most}. Write decimal degrees such as ${example}.`;
  return complain(at, axis, `${axis}-range`, says, mendByPostalCode(by));
}

/** Both letters of hemispheres name the same axis. */
export function sameAxis(at: Whereabouts, axis: Axis): Complaint {
  const wrong = axis === 'latitude' ? 'longitude' : 'latitude';
  const says = `latitude ${quote(at.latitudeText)} and longitude ${quote(at.longitudeText)} are both written as a ${axis}. Correct the ${wrong}.`;
  return complain(at, wrong, 'one-axis', says, null);
}

interface Found {
  readonly axis: Axis;
  readonly slip: Slip;
}

const slipsOf = (correction: Correction): Found[] =>
  axes.flatMap((axis) => correction[axis].slips.map((slip) => ({ axis, slip })));

function mendOf(at: Whereabouts, correction: Correction): Mend {
  const changed = axes.filter((axis) => correction[axis].text !== textAt(at, axis));
  const cells = Object.fromEntries(changed.map((axis) => [axis, correction[axis].text]));
  const exchange = correction.swapped ? ['exchange latitude and longitude'] : [];
  const undone = slipsOf(correction).map(({ axis, slip }) => undoing[slip](axis));
  const says = [...exchange, ...undone].join(', ');
  return { says: says.charAt(0).toUpperCase() + says.slice(1), cells };
}

/** What undoes a slip, in the same words for every row, so that mends of a kind can be made together. */
const undoing: Readonly<Record<Slip, (axis: Axis) => string>> = {
  sign: (axis) => `change the sign of the ${axis}`,
  turn: (axis) => `count the ${axis} from -180 to 180`,
  point: (axis) => `put back the decimal point of the ${axis}`,
};

const outside = (at: Whereabouts, { region }: Evidence): string =>
  region ? `outside ${region.code}` : `from postal_code ${quote(at.postalCode!)}`;

/** A single slip of one cell: its code, and the sentence about what was written, what lies beyond and what was meant. */
type SlipSentence = (
  axis: Axis,
  written: string,
  meant: Reading,
  where: string,
) => readonly [code: string, says: string];

const slipSentences: Readonly<Record<Slip, SlipSentence>> = {
  sign: (axis, written, meant, where) => {
    if (meant.value >= 0) {
      const says = `${axis} ${written} lies far ${where}: is there a minus sign too many?`;
      return ['minus-surplus', `${says} Write ${meant.text}.`];
    }
    const says = `${axis} ${written} lies far ${where}: is the minus sign missing?`;
    const rule = axis === 'longitude' ? ' Longitudes in North America are negative.' : '';
    return ['minus-missing', `${says}${rule}`];
  },
  turn: (axis, written) => [
    `${axis}-range`,
    `${axis} ${quote(written)} is not between -180 and 180. Write decimal degrees such as -122.33.`,
  ],
  point: (axis, written, meant) => [
    'decimal-point',
    `${axis} ${quote(written)} has lost its decimal point, it seems. Write decimal degrees: ${meant.text}.`,
  ],
};

const writeBoth = ({ latitude, longitude }: Correction): string =>
  `Write latitude ${latitude.text} and longitude ${longitude.text}.`;

function saysSwapped(at: Whereabouts, correction: Correction): string {
  const says = `latitude and longitude look swapped (${clip(at.latitudeText)} and ${clip(at.longitudeText)})`;
  return slipsOf(correction).length === 0
    ? `${says}. Exchange the two cells.`
    : `${says} and mistyped. ${writeBoth(correction)}`;
}

/** Coordinates that likely slips explain: what they were, and the mend, unless that contradicts what else is known. */
export function mistyped(
  at: Whereabouts,
  correction: Correction,
  evidence: Evidence,
  mends = true,
): Complaint {
  const mend = mends ? mendOf(at, correction) : null;
  if (correction.swapped) {
    return complain(at, 'latitude', 'swapped', saysSwapped(at, correction), mend);
  }
  const [first, ...others] = slipsOf(correction);
  if (!first) throw new Error('a correction without a slip');
  const { axis, slip } = first;
  const written = clip(textAt(at, axis));
  const [code, says] = slipSentences[slip](axis, written, correction[axis], outside(at, evidence));
  const both = `latitude ${clip(at.latitudeText)} and longitude ${clip(at.longitudeText)} seem mistyped.`;
  return complain(at, axis, code, others.length ? `${both} ${writeBoth(correction)}` : says, mend);
}

const kmTo = (at: Whereabouts, area: PostalArea): number =>
  Math.round(kmFrom(area, at.latitude, at.longitude));

/** The region contradicts the coordinates and nothing explains why. */
export function outsideRegion(
  at: Whereabouts,
  region: Region,
  evidence: Evidence,
  by: PostalRecord | null,
): Complaint {
  const { area } = evidence;
  if (area && at.region !== null && agreesWithPostal(evidence, at.latitude, at.longitude)) {
    return regionAlone(at, region);
  }
  const axis = nearLatitude(region, at.latitude) ? 'longitude' : 'latitude';
  const and = area ? `, and ${kmTo(at, area)} km from postal_code ${quote(at.postalCode!)}` : '';
  const other = at.region === null ? 'the postal code' : 'the region';
  const says = `${axis} ${clip(textAt(at, axis))} lies far outside ${region.code}${and}. Correct the coordinates or ${other}.`;
  return complain(at, axis, 'outside-region', says, mendByPostalCode(by));
}

function regionAlone(at: Whereabouts, { code }: Region): Complaint {
  const says = `the coordinates and postal_code ${quote(at.postalCode!)} agree with each other and lie far outside ${code}. Correct the region, or leave it empty.`;
  const mend = { says: 'Leave the region empty', cells: { region: '' } };
  return { column: 'region', value: at.region!, code: 'outside-region', says, mend };
}

/** The postal code contradicts the coordinates: a note where the region agrees with them, else the reason. */
export function farFromPostalCode(at: Whereabouts, { region, area }: Evidence): Complaint {
  const value = at.postalCode!;
  const distance = `the coordinates are ${kmTo(at, area!)} km from the centre of postal_code ${quote(value)}`;
  const says = region
    ? `${distance} but agree with ${region.code}, so they stand. Check which of the two is wrong, and correct it.`
    : `${distance}, too far for a building there. Correct the coordinates or the postal code; leave postal_code empty if the building stands outside the United States.`;
  return { column: 'postal_code', value, code: 'far-from-postal-code', says };
}
