import type { Points } from './space.ts';

/**
 * How unevenly a sample is spread, after Stevens and Olsen, *Spatially balanced sampling of natural resources*, JASA 99
 * (2004): each point of the frame belongs to the nearest selected one, equally near ones share it; v is the sum of the
 * chances that a selected one gathers, 1 in perfect balance; the measure is the mean of (v − 1)². In any number of
 * dimensions (Grafström and Lundström 2013). `selected` are places in `points`; NaN without any.
 */
export function voronoiSpread(points: Points, chances: Float64Array, selected: Int32Array): number {
  const { n, dimensions, at } = points;
  const gathered = new Float64Array(selected.length);
  const nearest = new Int32Array(selected.length);
  for (let i = 0; i < n; i += 1) {
    let [least, ties] = [Number.POSITIVE_INFINITY, 0];
    for (let s = 0; s < selected.length; s += 1) {
      let distance = 0;
      for (let d = 0; d < dimensions && distance <= least; d += 1) {
        const gap = at[i * dimensions + d]! - at[selected[s]! * dimensions + d]!;
        distance += gap * gap;
      }
      if (distance > least) continue;
      if (distance < least) [least, ties] = [distance, 0];
      nearest[ties++] = s;
    }
    for (let t = 0; t < ties; t += 1) gathered[nearest[t]!]! += chances[i]! / ties;
  }
  return gathered.reduce((sum, v) => sum + (v - 1) * (v - 1), 0) / selected.length;
}
