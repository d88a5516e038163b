/** Mean Earth radius R1 of GRS 80, km (Moritz, Geodetic Reference System 1980, Journal of Geodesy 74, 2000). */
export const earthRadiusKm = 6371.0088;

const radians = Math.PI / 180;

const hav = (degrees: number): number => Math.sin((degrees * radians) / 2) ** 2;

/** Great-circle distance by the haversine formula, km; arguments in degrees. The last bits differ between engines. */
export function haversineKm(lon1: number, lat1: number, lon2: number, lat2: number): number {
  const a =
    hav(lat2 - lat1) + Math.cos(lat1 * radians) * Math.cos(lat2 * radians) * hav(lon2 - lon1);
  return 2 * earthRadiusKm * Math.asin(Math.sqrt(Math.min(1, a)));
}

/** Least distance between two parallels, km: no point of one is nearer to any point of the other. */
export const parallelsKm = (lat1: number, lat2: number): number =>
  earthRadiusKm * radians * Math.abs(lat2 - lat1);

/**
 * Greatest difference in longitude, degrees, at which a point of one parallel lies within `km` of a point of the other:
 * 180 where every longitude is within reach, NaN where none is.
 */
export const reachDegrees = (lat1: number, lat2: number, km: number): number =>
  reachApart(lat2 - lat1, Math.cos(lat1 * radians) * Math.cos(lat2 * radians), km);

/** The same of parallels so many degrees apart, by the product of the cosines of their latitudes. */
export function reachApart(apart: number, cosines: number, km: number): number {
  const room = Math.sin(km / (2 * earthRadiusKm)) ** 2 - hav(apart);
  const q = room / cosines;
  return q >= 1 ? 180 : (2 * Math.asin(Math.sqrt(q))) / radians;
}
