import { type Box, type Country, countryBox, type Region } from './regions.ts';

/** Degrees a building may lie outside its region's box: coarse outlines, islands, offshore addresses (judgement). */
const boxTolerance = 0.5;

/** What makes a pair of coordinates unusable; null when they may stand. */
export type CoordinateProblem = 'zero' | 'range' | 'swapped' | 'minus' | 'far';

/** Degrees a longitude lies outside the box, measured the short way round the globe. */
function longitudeOutside(box: Box, longitude: number): number {
  if (longitude >= box.west && longitude <= box.east) return 0;
  const east = (((longitude - box.east) % 360) + 360) % 360;
  const west = (((box.west - longitude) % 360) + 360) % 360;
  return Math.min(east, west);
}

/** Whether a place lies within the box, or no more than the tolerance outside it. */
export const nearBox = (box: Box, latitude: number, longitude: number): boolean =>
  latitude >= box.south - boxTolerance &&
  latitude <= box.north + boxTolerance &&
  longitudeOutside(box, longitude) <= boxTolerance;

/** The same for the box around all regions of a country. */
export const nearCountry = (country: Country, latitude: number, longitude: number): boolean =>
  nearBox(countryBox[country], latitude, longitude);

const onGlobe = (latitude: number, longitude: number): boolean =>
  Math.abs(latitude) <= 90 && Math.abs(longitude) <= 180;

/**
 * Southern latitudes beyond 52° with a longitude of 17° to 84° E are open sea or Antarctica; exchanged they are the
 * latitudes and longitudes of North America.
 */
const exchanged = (latitude: number, longitude: number): boolean =>
  latitude < -52 && longitude > 17 && longitude < 84;

/**
 * Judges coordinates against the globe and, where the region is known, its bounding box.
 * `swapped`: they would fit the other way round; `minus`: they would fit with the sign of the longitude changed.
 */
export function coordinateProblem(
  latitude: number,
  longitude: number,
  region: Region | null,
): CoordinateProblem | null {
  if (latitude === 0 && longitude === 0) return 'zero';
  const fits = onGlobe(latitude, longitude);
  if (fits && region && nearBox(region, latitude, longitude)) return null;
  if (exchanged(latitude, longitude) || (region && nearBox(region, longitude, latitude))) {
    return 'swapped';
  }
  if (!fits) return 'range';
  if (!region) return null;
  return nearBox(region, latitude, -longitude) ? 'minus' : 'far';
}
