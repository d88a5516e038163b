import { nearBox, nearCountry } from '../place/coordinates.ts';
import { type Centroid, type PostalCentroids, postalCountry } from '../place/postal.ts';
import { regionOfCode } from '../place/postal-region.ts';
import { type Country, findRegion, type Region } from '../place/regions.ts';
import { type Complaint, quote } from './sentences.ts';
import type { Place, PostalRecord, Whereabouts } from './whereabouts.ts';

/** A spreadsheet that takes a US code for a number drops its leading zeros. */
const withZeros = (code: string): string => (/^\d{3,4}$/.test(code) ? code.padStart(5, '0') : code);

/** The building's code on the list, zeros restored; null where it is not there. */
export function postalRecord(
  { postalCode }: Whereabouts,
  region: Region | null,
  postal: PostalCentroids | undefined,
): PostalRecord | null {
  if (postalCode === null || !postal) return null;
  const sure = region?.country === 'US' || postalCountry(postalCode) === 'US';
  const code = region?.country === 'CA' ? postalCode : withZeros(postalCode);
  const area = postal.find(code);
  return area && { code, area, sure };
}

/** Whether a building can be placed by it: where it is sure, and not far outside the region. */
export const places = (record: PostalRecord | null, region: Region | null): boolean =>
  record?.sure === true &&
  (region === null || nearBox(region, record.area.latitude, record.area.longitude));

function countryOf(region: Region | null, code: string | null, place: Centroid): Country | null {
  if (region) return region.country;
  const country = code === null ? null : postalCountry(code);
  return country && nearCountry(country, place.latitude, place.longitude) ? country : null;
}

/** The region that the code names, where that does not contradict the place. */
function regionBy(code: string | null, { latitude, longitude }: Centroid): Region | null {
  const region = code === null ? null : regionOfCode(code);
  return region && nearBox(region, latitude, longitude) ? region : null;
}

/** Region and country of a building that stands there: a region on record stands, known to us or not. */
export function partOf(
  at: Whereabouts,
  code: string | null,
  place: Centroid,
): Pick<Place, 'region' | 'regionSource' | 'country'> {
  const given = at.region !== null;
  const region = given ? findRegion(at.region) : regionBy(code, place);
  const found = region ? 'postal code' : null;
  return {
    region,
    regionSource: given ? 'record' : found,
    country: countryOf(region, code, place),
  };
}

function nowhere({ latitudeText, longitudeText, postalCode }: Whereabouts): Complaint {
  const half = latitudeText === '' ? 'latitude' : 'longitude';
  const missing =
    latitudeText === longitudeText ? 'there are no coordinates' : `${half} is missing`;
  const postal =
    postalCode === null
      ? 'and there is no postal code'
      : `and postal_code ${quote(postalCode)} has no place in the list of US postal codes`;
  const says = `${missing} ${postal}, so the building cannot be placed. Give latitude and longitude, or a US postal code.`;
  return { column: 'postal_code', value: postalCode ?? '', code: 'no-place', says };
}

function noteOf(at: Whereabouts, code: string): Complaint | null {
  const value = at.latitudeText || at.longitudeText;
  if (value !== '') {
    const column = at.latitudeText ? 'latitude' : 'longitude';
    const says = `${column} ${quote(value)} stands alone, so the building is placed by its postal code. Give both coordinates, or neither.`;
    return { column, value, code: 'half-coordinates', says };
  }
  if (code === at.postalCode) return null;
  const says = `postal_code ${quote(at.postalCode!)} is read as ${code}: a spreadsheet dropped its leading zeros. Format the column as text.`;
  return { column: 'postal_code', value: at.postalCode!, code: 'postal-zeros', says };
}

/** Places a building without coordinates at the centre of its US postal code, or says why it cannot be. */
export function placeByPostalCode(
  at: Whereabouts,
  region: Region | null,
  record: PostalRecord | null,
): Place | Complaint {
  if (!record?.sure) return nowhere(at);
  const { code, area } = record;
  if (!places(record, region)) {
    const says = `postal_code ${quote(at.postalCode!)} lies far outside ${region!.code}. Correct the postal code or the region, or give coordinates.`;
    return { column: 'postal_code', value: at.postalCode!, code: 'postal-outside-region', says };
  }
  return {
    latitude: area.latitude,
    longitude: area.longitude,
    source: 'postal centroid',
    km: area.radiusKm,
    ...partOf(at, code, area),
    note: noteOf(at, code),
  };
}
