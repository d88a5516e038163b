import { eastward } from './longitudes.ts';
import { inReach, type PostalArea } from './postal.ts';
import { type Box, type Country, countryBox, type Region } from './regions.ts';

/** Degrees a building may lie outside its region's box: coarse outlines, islands, offshore addresses (judgement). */
const boxTolerance = 0.5;

/** Degrees a longitude lies outside the box, measured the short way round the globe. */
function longitudeOutside({ west, east }: Box, longitude: number): number {
  if (eastward(west, longitude) <= eastward(west, east)) return 0;
  return Math.min(eastward(east, longitude), eastward(longitude, west));
}

/** Whether a latitude lies within the box, or no more than the tolerance outside it. */
export const nearLatitude = (box: Box, latitude: number): boolean =>
  latitude >= box.south - boxTolerance && latitude <= box.north + boxTolerance;

/** Whether a place lies within the box, or no more than the tolerance outside it. */
export const nearBox = (box: Box, latitude: number, longitude: number): boolean =>
  nearLatitude(box, latitude) && longitudeOutside(box, longitude) <= boxTolerance;

/** The same for the box around all regions of a country. */
export const nearCountry = (country: Country, latitude: number, longitude: number): boolean =>
  nearBox(countryBox[country], latitude, longitude);

/** What else is known of where a building stands. */
export interface Evidence {
  readonly region: Region | null;
  readonly area: PostalArea | null;
}

/** Whether the region, where there is one, does not contradict the place. */
export const agreesWithRegion = (
  { region }: Evidence,
  latitude: number,
  longitude: number,
): boolean => region === null || nearBox(region, latitude, longitude);

/** Whether the postal code, where its place is known, does not contradict the place. */
export const agreesWithPostal = (
  { area }: Evidence,
  latitude: number,
  longitude: number,
): boolean => area === null || inReach(area, latitude, longitude);

export const onGlobe = (latitude: number, longitude: number): boolean =>
  Math.abs(latitude) <= 90 && Math.abs(longitude) <= 180;

/**
 * Southern latitudes beyond 52° with a longitude of 17° to 84° E are open sea or Antarctica; exchanged they are the
 * latitudes and longitudes of North America. All that can be told where neither region nor postal code is given.
 */
export const exchanged = (latitude: number, longitude: number): boolean =>
  latitude < -52 && longitude > 17 && longitude < 84;
