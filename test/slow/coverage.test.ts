import { afterAll, describe, expect, test } from 'vitest';
import { infer } from '../../analysis/findings/infer.ts';
import { outlineOf } from '../../analysis/findings/plan.ts';
import { defaultRequest, type SelectionRequest } from '../../analysis/sample/request.ts';
import { select } from '../../analysis/sample/select.ts';
import type { Design, Population, SelectedUnit } from '../../analysis/sample/types.ts';
import { findingTable, openingOn } from '../findings/field.ts';
import { normal, randomFrom } from '../findings/random.ts';

/** How often intervals of 95 % hold the true share of a population whose every wall is known. */

const replays = 1000;
const walls = 240;
const shares = [0.03, 0.1, 0.3];
const sizes = [20, 60];
const designs: readonly Design[] = ['simple', 'stratified', 'pps', 'replicated', 'balanced'];

const column = (of: (i: number) => number): Float64Array =>
  Float64Array.from({ length: walls }, (_, i) => of(i));

/** Sixty buildings of four walls in a town, three claddings, wetting that differs by building and by wall. */
function population(random: () => number): Population {
  const building = (i: number): number => i >> 2;
  const each = Array.from({ length: walls / 4 }, () => ({
    latitude: 47 + 0.1 * random(),
    longitude: -122 + 0.1 * random(),
    wet: 0.5 * normal(random),
    material: ['stucco', 'eifs', 'adhered_stone'][Math.floor(3 * random())]!,
  }));
  const of = (i: number) => each[building(i)]!;
  const wetting = column((i) => 100 * Math.exp(of(i).wet + 0.5 * normal(random)));
  return {
    unit: 'wall',
    n: walls,
    id: Array.from({ length: walls }, (_, i) => `${i}`.padStart(4, '0')),
    cluster: Array.from({ length: walls }, (_, i) => `B${building(i)}`),
    tier: new Array(walls).fill('Next look'),
    material: Array.from({ length: walls }, (_, i) => of(i).material),
    installed: column(() => 1995),
    azimuthDeg: column((i) => 90 * (i & 3)),
    heightM: column(() => 10),
    latitude: column((i) => of(i).latitude),
    longitude: column((i) => of(i).longitude),
    areaM2: column(() => 60 + 80 * random()),
    wetting,
    index: column((i) => (100 * wetting[i]!) / (wetting[i]! + 100)),
  };
}

/** The walls that are decayed: those that score most by wetting, by their building where decay is clustered, and by chance. */
function decayed(
  { wetting }: Population,
  share: number,
  clustered: boolean,
  random: () => number,
): ReadonlySet<number> {
  const ofBuilding = Array.from({ length: walls / 4 }, () => (clustered ? 2 * normal(random) : 0));
  const score = Array.from(wetting, (w, i) => Math.log(w) + ofBuilding[i >> 2]! + normal(random));
  const order = score.map((_, i) => i).sort((i, j) => score[j]! - score[i]!);
  return new Set(order.slice(0, Math.round(share * walls)));
}

const wallOf = ({ unit }: SelectedUnit): string => `W${unit & 3}`;

function requestOf(design: Design, openings: number, seed: number): SelectionRequest {
  return {
    ...defaultRequest,
    design,
    openings,
    seed,
    strata: design === 'stratified' ? ['material'] : [],
  };
}

interface Cell {
  readonly covered: number;
  readonly width: number;
}

function coverage(design: Design, share: number, openings: number, clustered: boolean): Cell {
  const random = randomFrom(Math.round(1e4 * share) + openings + (clustered ? 7 : 0));
  const all = population(random);
  let [covered, width] = [0, 0];
  for (let seed = 1; seed <= replays; seed += 1) {
    const truth = decayed(all, share, clustered, random);
    const drawn = select(all, requestOf(design, openings, seed));
    if (!drawn.ok) throw new Error(drawn.says.join(' '));
    const plan = outlineOf({ planId: 'P', unit: 'wall', design }, drawn.selection, wallOf);
    const opened = new Set(plan.units.map(({ unit }) => unit));
    const rows = Array.from(opened, (i) => openingOn(i, truth.has(i) ? 'decayed' : 'sound'));
    const { low, high } = infer(plan, findingTable(rows)).overall!.share;
    const real = truth.size / walls;
    if (low <= real + 1e-9 && real <= high + 1e-9) covered += 1;
    width += high - low;
  }
  return { covered: covered / replays, width: width / replays };
}

const table: string[] = [];
afterAll(() => {
  const head = 'design      decay       share   n  coverage  mean width';
  console.log([head, ...table].join('\n'));
});

describe.each(designs)(
  '%s: intervals of 95 % hold the true share',
  (design) => {
    for (const clustered of [false, true])
      for (const share of shares)
        for (const n of sizes) {
          const decay = clustered ? 'by building' : 'scattered';
          test(`${decay}, share ${share}, ${n} openings: in at least 93 % of ${replays} replays`, () => {
            const { covered, width } = coverage(design, share, n, clustered);
            table.push(
              `${design.padEnd(11)} ${decay.padEnd(11)} ${share.toFixed(2).padStart(5)} ${`${n}`.padStart(3)} ${covered.toFixed(3).padStart(9)} ${width.toFixed(3).padStart(11)}`,
            );
            expect(covered).toBeGreaterThanOrEqual(0.93);
          });
        }
  },
  240_000,
);
