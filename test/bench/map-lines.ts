import type { Bench, Line } from './line.ts';
import { firstMap, openMap } from './map.ts';
import { within } from './within.ts';

const n = 1_000_000;

/** The first drawn map of a million, against MapLibre's plain GeoJSON source of the same buildings. */
export async function mapDrawn(bench: Bench): Promise<readonly Line[]> {
  const { ms, plainMs } = await firstMap(await bench.browser(), n);
  return [
    {
      work: '1M buildings: first drawn map',
      figure: ms,
      unit: 'ms',
      baseline: plainMs,
      baselineName: 'MapLibre’s plain GeoJSON source',
      goal: { ratio: 1 / 15 },
    },
  ];
}

export async function mapMoved(bench: Bench): Promise<readonly Line[]> {
  const { move, change } = await openMap(await bench.browser(), n);
  return [
    within('1M buildings: pan or zoom until all is drawn', move, 500),
    within('1M buildings: another ranking or filter on the map until all is drawn', change, 500),
  ];
}
