import { type Places, placesOf, planeKm } from './plane.ts';
import type { Prepared } from './prepare.ts';
import { drawAt, type Random } from './random.ts';

/** Whether a unit may be taken beside those that were taken before. */
export type Accept = (unit: number) => boolean;

/**
 * Draws members one by one at random and takes the first n that are accepted; fewer where there are no more. Returns
 * their places in `members`, in the order in which they were drawn.
 */
export function takeFrom(
  members: Int32Array,
  n: number,
  accept: Accept,
  random: Random,
): Int32Array {
  const pool = Int32Array.from({ length: n > 0 ? members.length : 0 }, (_, i) => i);
  const taken = new Int32Array(n);
  let count = 0;
  for (let k = 0; k < pool.length && count < n; k += 1) {
    const place = drawAt(random, pool, k);
    if (accept(members[place]!)) taken[count++] = place;
  }
  return taken.slice(0, count);
}

const isPlaced = ({ latitude, longitude }: Places, unit: number): boolean =>
  !Number.isNaN(latitude[unit]! + longitude[unit]!);

/** Accepts units with a place that keep the distance from all accepted before and from `fixed`. */
function keepingDistance(places: Places, km: number, fixed: Int32Array): Accept {
  const accepted = Array.from(fixed).filter((unit) => isPlaced(places, unit));
  return (unit) => {
    const kept =
      isPlaced(places, unit) && accepted.every((other) => planeKm(places, unit, other) >= km);
    if (kept) accepted.push(unit);
    return kept;
  };
}

/** Makes the rule by which a draw accepts units, beside those that are taken in any case. */
export function acceptor({ population, request }: Prepared): (fixed: Int32Array) => Accept {
  const km = request.minimumDistanceKm;
  if (km === 0) return () => () => true;
  const places = placesOf(population.latitude, population.longitude);
  return (fixed) => keepingDistance(places, km, fixed);
}
