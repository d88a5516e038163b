import { searchValue, searchValues } from './constants.ts';
import type { Shape } from './correlation.ts';
import { oneByOne } from './leave-out.ts';
import { leaveOut, type Network } from './network.ts';
import type { Field } from './system.ts';

/** Every pair of range and nugget that is tried, in the order of data/stations/search.csv. */
export const candidates: readonly Shape[] = searchValues('range_km').flatMap((range) =>
  searchValues('nugget').map((nugget) => ({ range, nugget })),
);

const most = searchValue('search_stations');

/** Root of the mean square of what could be foretold: which stations could not be does not depend on the pair. */
function rootMeanSquare(values: Float64Array): number {
  const known = values.filter((x) => !Number.isNaN(x));
  return Math.sqrt(known.reduce((sum, x) => sum + x * x, 0) / known.length);
}

/**
 * The pair with the least error of ln rain, stations left out one by one. Errors are compared to 1e-9, the first of equals
 * wins: last bits of exp decide nothing.
 */
export function chooseShape(network: Network, field: Field): Shape {
  const groups = oneByOne(network.stations.n);
  const errors = candidates.map((shape) => {
    const { error } = leaveOut(network, field, shape, groups, most);
    return Math.round(rootMeanSquare(error) * 1e9);
  });
  return candidates[errors.indexOf(Math.min(...errors))]!;
}
