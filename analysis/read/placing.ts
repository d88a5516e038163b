import { coordinateProblem, nearBox, nearCountry } from '../place/coordinates.ts';
import { type Centroid, type PostalCentroids, postalCountry } from '../place/postal.ts';
import { type Country, findRegion, type Region } from '../place/regions.ts';
import { type Complaint, clip, quote } from './sentences.ts';

/** The cells that say where a building stands, as written and as read (NaN or null for no record). */
export interface Whereabouts {
  readonly latitudeText: string;
  readonly longitudeText: string;
  readonly latitude: number;
  readonly longitude: number;
  readonly region: string | null;
  readonly postalCode: string | null;
}

export interface Place extends Centroid {
  readonly source: 'coordinates' | 'postal centroid';
  readonly region: Region | null;
  readonly country: Country | null;
  /** What to note about an accepted place. */
  readonly note: Complaint | null;
}

const complain = (column: string, value: string, code: string, says: string): Complaint => ({
  column,
  value,
  code,
  says,
});

type Problem = NonNullable<ReturnType<typeof coordinateProblem>>;

/** Which of the two coordinates the sentence is about, and the sentence. */
const problems: Readonly<Record<Problem, (at: Whereabouts, region: Region | null) => Complaint>> = {
  zero: ({ latitudeText }) =>
    complain(
      'latitude',
      latitudeText,
      'zero-coordinates',
      'latitude and longitude are both 0, a point at sea. Give the coordinates of the building, or leave both empty and give its postal code.',
    ),
  swapped: ({ latitudeText, longitudeText }) =>
    complain(
      'latitude',
      latitudeText,
      'swapped',
      `latitude and longitude look swapped (${clip(latitudeText)} and ${clip(longitudeText)}). Exchange the two cells.`,
    ),
  range: ({ latitude, latitudeText, longitudeText }) =>
    Math.abs(latitude) > 90
      ? complain(
          'latitude',
          latitudeText,
          'latitude-range',
          `latitude ${quote(latitudeText)} is not between -90 and 90. Write decimal degrees such as 47.61.`,
        )
      : complain(
          'longitude',
          longitudeText,
          'longitude-range',
          `longitude ${quote(longitudeText)} is not between -180 and 180. Write decimal degrees such as -122.33.`,
        ),
  minus: ({ longitudeText }, region) =>
    complain(
      'longitude',
      longitudeText,
      'minus-missing',
      `longitude ${clip(longitudeText)} lies far outside ${region!.code}: is the minus sign missing? Longitudes in North America are negative.`,
    ),
  far: (at, region) => {
    const column = nearBox({ ...region!, west: -180, east: 180 }, at.latitude, 0)
      ? 'longitude'
      : 'latitude';
    const written = column === 'latitude' ? at.latitudeText : at.longitudeText;
    return complain(
      column,
      written,
      'outside-region',
      `${column} ${clip(written)} lies far outside ${region!.code}. Correct the coordinates or the region.`,
    );
  },
};

function unreadable({ latitude, latitudeText, longitudeText }: Whereabouts): Complaint {
  const column = Number.isNaN(latitude) ? 'latitude' : 'longitude';
  const written = column === 'latitude' ? latitudeText : longitudeText;
  const says = `${column} ${quote(written)} is not a number. Write decimal degrees such as 47.61 and -122.33.`;
  return complain(column, written, 'coordinates-not-numbers', says);
}

/** A spreadsheet that takes a US code for a number drops its leading zeros. */
const withZeros = (code: string, region: Region | null): string =>
  region?.country === 'US' && /^\d{3,4}$/.test(code) ? code.padStart(5, '0') : code;

function countryOf(region: Region | null, code: string | null, place: Centroid): Country | null {
  if (region) return region.country;
  const country = code === null ? null : postalCountry(code);
  return country && nearCountry(country, place.latitude, place.longitude) ? country : null;
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
  return complain('postal_code', postalCode ?? '', 'no-place', says);
}

function noteOf(at: Whereabouts, code: string): Complaint | null {
  const written = at.latitudeText || at.longitudeText;
  if (written !== '') {
    const column = at.latitudeText ? 'latitude' : 'longitude';
    const says = `${column} ${quote(written)} stands alone, so the building is placed by its postal code. Give both coordinates, or neither.`;
    return complain(column, written, 'half-coordinates', says);
  }
  if (code === at.postalCode) return null;
  const says = `postal_code ${quote(at.postalCode!)} is read as ${code}: a spreadsheet dropped its leading zeros. Format the column as text.`;
  return complain('postal_code', at.postalCode!, 'postal-zeros', says);
}

function placeByPostalCode(
  at: Whereabouts,
  region: Region | null,
  postal: PostalCentroids | undefined,
): Place | Complaint {
  const code = at.postalCode === null ? null : withZeros(at.postalCode, region);
  const found = code === null ? null : (postal?.find(code) ?? null);
  if (code === null || found === null) return nowhere(at);
  if (region && !nearBox(region, found.latitude, found.longitude)) {
    const says = `postal_code ${quote(at.postalCode!)} lies far outside ${region.code}. Correct the postal code or the region, or give coordinates.`;
    return complain('postal_code', at.postalCode!, 'postal-outside-region', says);
  }
  const country = countryOf(region, code, found);
  return { ...found, source: 'postal centroid', region, country, note: noteOf(at, code) };
}

/** Whether a complaint was returned in place of a place. */
export const isComplaint = (found: Place | Complaint): found is Complaint => 'says' in found;

/** Places a building by its coordinates, else by its US postal code; a complaint where neither can be used. */
export function placeBuilding(
  at: Whereabouts,
  postal: PostalCentroids | undefined,
): Place | Complaint {
  const { latitude, longitude } = at;
  const region = findRegion(at.region);
  const blank = [at.latitudeText, at.longitudeText].includes('');
  if (blank) return placeByPostalCode(at, region, postal);
  if (Number.isNaN(latitude + longitude)) return unreadable(at);
  const problem = coordinateProblem(latitude, longitude, region);
  if (problem) return problems[problem](at, region);
  const country = countryOf(region, at.postalCode, { latitude, longitude });
  return { latitude, longitude, source: 'coordinates', region, country, note: null };
}
