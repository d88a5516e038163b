import {
  agreesWithPostal,
  agreesWithRegion,
  type Evidence,
  exchanged,
  onGlobe,
} from '../place/coordinates.ts';
import { type PostalCentroids, provinceOf } from '../place/postal.ts';
import { findRegion } from '../place/regions.ts';
import { axisOf } from './degrees.ts';
import {
  farFromPostalCode,
  mistyped,
  notNumbers,
  notOnGlobe,
  outsideRegion,
  sameAxis,
  zeros,
} from './place-complaints.ts';
import { partOf, placeByPostalCode, places, postalRecord } from './postal-place.ts';
import type { Complaint } from './sentences.ts';
import { type Angle, type Correction, correctionOf, exchange } from './slips.ts';
import type { Place, PostalRecord, Whereabouts } from './whereabouts.ts';

/** Whether a complaint was returned in place of a place. */
export const isComplaint = (found: Place | Complaint): found is Complaint => 'says' in found;

const anglesOf = (at: Whereabouts): readonly [Angle, Angle] => [
  { text: at.latitudeText, value: at.latitude },
  { text: at.longitudeText, value: at.longitude },
];

const agrees = (evidence: Evidence, latitude: number, longitude: number): boolean =>
  onGlobe(latitude, longitude) &&
  agreesWithRegion(evidence, latitude, longitude) &&
  agreesWithPostal(evidence, latitude, longitude);

/** Exchanged for certain; whether that is the whole mend depends on what else is known. */
function swapped(at: Whereabouts, evidence: Evidence): Complaint {
  const mends = agrees(evidence, at.longitude, at.latitude);
  return mistyped(at, exchange(...anglesOf(at)), evidence, mends);
}

/** Letters of hemispheres that stand in the other's cell, or twice in their own. */
function lettersAstray(at: Whereabouts, evidence: Evidence): Complaint | null {
  const upper = axisOf(at.latitudeText);
  const lower = axisOf(at.longitudeText);
  if (upper && upper === lower) return sameAxis(at, upper);
  return upper === 'longitude' || lower === 'latitude' ? swapped(at, evidence) : null;
}

/** A code that may be another country's counts where it agrees with the place, or with a likely correction of it. */
function doubtful(at: Whereabouts, evidence: Evidence): Correction | null {
  const { latitude, longitude } = at;
  if (agreesWithPostal(evidence, latitude, longitude)) return null;
  return correctionOf(...anglesOf(at), evidence);
}

/** Why coordinates cannot stand, if they cannot. */
function contradiction(
  at: Whereabouts,
  evidence: Evidence,
  postal: PostalRecord | null,
): Complaint | null {
  const { latitude, longitude } = at;
  const { region, area } = evidence;
  const fits = onGlobe(latitude, longitude);
  const inRegion = fits && agreesWithRegion(evidence, latitude, longitude);
  const inArea = fits && agreesWithPostal(evidence, latitude, longitude);
  const looksExchanged = exchanged(latitude, longitude);
  if (inRegion && (inArea || region)) {
    return looksExchanged && !region && !area ? swapped(at, evidence) : null;
  }
  const by = postal && places(postal, findRegion(at.region)) ? postal : null;
  if (area && inArea) return outsideRegion(at, region!, evidence, by);
  const correction = correctionOf(...anglesOf(at), evidence);
  if (correction) return mistyped(at, correction, evidence);
  if (looksExchanged) return swapped(at, evidence);
  if (!fits) return notOnGlobe(at, by);
  return region ? outsideRegion(at, region, evidence, by) : farFromPostalCode(at, evidence);
}

function placeByCoordinates(at: Whereabouts, postal: PostalRecord | null): Place | Complaint {
  const { latitude, longitude } = at;
  const region = findRegion(at.region);
  const known = region ?? (at.postalCode === null ? null : provinceOf(at.postalCode));
  let evidence: Evidence = { region: known, area: postal?.area ?? null };
  if (postal && !postal.sure) {
    const correction = doubtful(at, evidence);
    if (correction) return mistyped(at, correction, evidence);
    if (!agreesWithPostal(evidence, latitude, longitude)) evidence = { region: known, area: null };
  }
  const complaint = lettersAstray(at, evidence) ?? contradiction(at, evidence, postal);
  if (complaint) return complaint;
  const inArea = agreesWithPostal(evidence, latitude, longitude);
  const code = evidence.area && inArea ? postal!.code : at.postalCode;
  return {
    latitude,
    longitude,
    source: 'coordinates',
    km: Number.NaN,
    ...partOf(at, code, { latitude, longitude }),
    note: inArea ? null : farFromPostalCode(at, evidence),
  };
}

/**
 * Places a building by its coordinates, else by its US postal code; a complaint where neither can be used. Coordinates
 * are held against region and postal code; a likely slip comes with its mend and is never mended here.
 */
export function placeBuilding(
  at: Whereabouts,
  postal: PostalCentroids | undefined,
): Place | Complaint {
  const { latitude, longitude } = at;
  const region = findRegion(at.region);
  const record = postalRecord(at, region, postal);
  if (at.latitudeText === '' || at.longitudeText === '') {
    return placeByPostalCode(at, region, record);
  }
  const by = places(record, region) ? record : null;
  if (Number.isNaN(latitude + longitude)) return notNumbers(at, by);
  if (latitude === 0 && longitude === 0) return zeros(at, by);
  return placeByCoordinates(at, record);
}
