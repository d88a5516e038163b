import { bin, rollup } from 'd3';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { eraBands } from '../../analysis/bands.ts';
import { tiers } from '../../analysis/session-types.ts';
import {
  ownColumns,
  tallyViews,
  type ViewColumns,
  type ViewMasks,
  viewCells,
  wettingByNeed,
} from '../../analysis/sift/tallies.ts';
import { bars, barsCells } from '../../analysis/sift/tally-bars.ts';
import { edgesOf } from '../../analysis/sift/tally-bins.ts';
import { density, densityCells } from '../../analysis/sift/tally-density.ts';
import { histogram, histogramCells } from '../../analysis/sift/tally-histogram.ts';
import { matrix, matrixCells } from '../../analysis/sift/tally-matrix.ts';

interface Building {
  readonly index: number;
  readonly wetting: number;
  readonly adequacy: number;
  readonly installed: number;
  readonly tier: number;
  readonly material: number;
  readonly region: number;
  readonly pass: number;
}

const materials = ['eifs', 'stucco', 'wood'];
const regions = ['Ohio', 'Oregon', 'Texas', 'Utah'];
const orNone = (arbitrary: fc.Arbitrary<number>) =>
  fc.oneof({ weight: 9, arbitrary }, { weight: 1, arbitrary: fc.constant(Number.NaN) });
/** Rounded as the ranking rounds, so that values fall on edges. */
const rounded = (max: number, steps: number) =>
  fc.integer({ min: 0, max: max * steps }).map((v) => v / steps);

const building: fc.Arbitrary<Building> = fc.record({
  index: orNone(rounded(100, 2)),
  wetting: orNone(rounded(400, 1)),
  adequacy: orNone(rounded(1, 20)),
  installed: orNone(fc.integer({ min: 1900, max: 2026 })),
  tier: fc.integer({ min: 0, max: tiers.length - 1 }),
  material: fc.integer({ min: -1, max: materials.length - 1 }),
  region: fc.integer({ min: -1, max: regions.length - 1 }),
  pass: fc.integer({ min: 0, max: 1 }),
});
const portfolio = fc.array(building, { minLength: 1, maxLength: 60 });

const doubles = (rows: readonly Building[], field: keyof Building) =>
  Float64Array.from(rows, (row) => row[field]);
const codes = (rows: readonly Building[], field: keyof Building) =>
  Int32Array.from(rows, (row) => row[field]);
const passes = (rows: readonly Building[]) => Uint8Array.from(rows, ({ pass }) => pass);
const kept = (rows: readonly Building[]) => rows.filter(({ pass }) => pass === 1);

describe('each count is that of d3-array over the same rows', () => {
  test('bins of the index: d3.bin at the same edges, tier by tier', () => {
    fc.assert(
      fc.property(portfolio, (rows) => {
        const edges = edgesOf(0, 5, 20);
        const made = histogramCells(doubles(rows, 'index'), edges, codes(rows, 'tier'));
        const ours = histogram(made, passes(rows));
        const binned = bin<Building, number>()
          .value(({ index }) => index)
          .domain([0, 100])
          .thresholds(Array.from(edges).slice(1, -1));
        const counts = binned(kept(rows)).flatMap((members) =>
          tiers.map((_, tier) => members.filter((row) => row.tier === tier).length),
        );
        expect(Array.from(ours.kept)).toEqual(counts);
        expect(Array.from(ours.whole)).toEqual(binned([...rows]).map(({ length }) => length));
        expect(ours.none).toBe(kept(rows).filter(({ index }) => Number.isNaN(index)).length);
      }),
    );
  });

  test('cells of the density: d3.bin across, then up', () => {
    fc.assert(
      fc.property(portfolio, (rows) => {
        const edges = { x: edgesOf(0, 20, 20), y: edgesOf(0, 0.05, 20) };
        const plane = { x: doubles(rows, 'wetting'), y: doubles(rows, 'adequacy'), edges };
        const ours = density(densityCells(plane), passes(rows), 10);
        const across = bin<Building, number>()
          .value(({ wetting }) => wetting)
          .domain([0, 400])
          .thresholds(Array.from(edges.x).slice(1, -1));
        const up = bin<Building, number>()
          .value(({ adequacy }) => adequacy)
          .domain([0, 1])
          .thresholds(Array.from(edges.y).slice(1, -1));
        const cells = (some: readonly Building[]) => {
          const counts = new Array<number>(400).fill(0);
          for (const [column, members] of across([...some]).entries())
            for (const [row, cell] of up(members).entries())
              counts[row * 20 + column] = cell.length;
          return counts;
        };
        expect(Array.from(ours.kept)).toEqual(cells(kept(rows)));
        expect(Array.from(ours.whole)).toEqual(cells(rows));
        const placed = ours.kept.reduce((sum, n) => sum + n, 0);
        expect(placed + ours.none).toBe(kept(rows).length);
        expect(ours.points?.x.length ?? 'too many').toBe(placed <= 10 ? placed : 'too many');
      }),
    );
  });

  test('era by material, and tier by region: d3.rollup by word', () => {
    const bands = eraBands;
    const bandOf = ({ installed }: Building) =>
      Number.isNaN(installed)
        ? bands.length
        : bands.findIndex(({ below }) => below === undefined || installed < below);
    fc.assert(
      fc.property(portfolio, (rows) => {
        const material = { codes: codes(rows, 'material'), words: materials };
        const region = { codes: codes(rows, 'region'), words: regions };
        const tier = codes(rows, 'tier');
        const count = (v: readonly Building[]) => v.length;
        const years = doubles(rows, 'installed');
        const byBand = matrix(matrixCells(years, bands, material, tier), passes(rows));
        const word = (code: number, words: readonly string[]) => words[code] ?? null;
        const cells = rollup(kept(rows), count, (r) => word(r.material, materials), bandOf);
        const all = rollup(rows, count, (r) => word(r.material, materials), bandOf);
        const pressing = rollup(
          kept(rows).filter((r) => r.tier <= 1),
          count,
          (r) => word(r.material, materials),
          bandOf,
        );
        expect(new Set(byBand.words)).toEqual(new Set(all.keys()));
        byBand.words.forEach((row, i) => {
          for (let band = 0; band <= bands.length; band++) {
            const at = i * (bands.length + 1) + band;
            expect(byBand.kept[at]).toBe(cells.get(row)?.get(band) ?? 0);
            expect(byBand.whole[at]).toBe(all.get(row)?.get(band) ?? 0);
            expect(byBand.pressing[at]).toBe(pressing.get(row)?.get(band) ?? 0);
          }
        });
        const byRegion = bars(barsCells(region, tier), passes(rows));
        const tierCells = rollup(
          kept(rows),
          count,
          (r) => word(r.region, regions),
          (r) => r.tier,
        );
        byRegion.words.forEach((row, i) => {
          tiers.forEach((_, t) => {
            expect(byRegion.kept[i * tiers.length + t]).toBe(tierCells.get(row)?.get(t) ?? 0);
          });
        });
      }),
    );
  });
});

describe('a bin holds what a filter at its edges would let through', () => {
  test('from is inclusive, below exclusive, also where the quotient rounds across the edge', () => {
    const adequacy = Float64Array.from({ length: 10_001 }, (_, i) => i / 10_000);
    const edges = edgesOf(0, 1 / 20, 20);
    const cells = histogramCells(adequacy, edges, new Int32Array(adequacy.length));
    const tally = histogram(cells, null);
    tally.whole.forEach((n, k) => {
      const below = k === 19 ? Number.POSITIVE_INFINITY : edges[k + 1]!;
      expect(n).toBe(adequacy.filter((v) => v >= edges[k]! && v < below).length);
    });
  });
});

describe('rows stand in an order that puts what presses first', () => {
  const region = { codes: Int32Array.of(0, 0, 1, 2, 2, -1), words: ['Ohio', 'Oregon', 'Utah'] };
  test('regions: most First look, then most buildings; no record is a row of its own', () => {
    const tally = bars(barsCells(region, Int32Array.of(3, 3, 0, 0, 1, 4)), null);
    expect(tally.words).toEqual(['Utah', 'Oregon', 'Ohio', null]);
    expect(Array.from(tally.whole)).toEqual([2, 1, 2, 1]);
  });

  test('materials: most buildings of the whole portfolio, whatever passes', () => {
    const years = Float64Array.of(1970, 1979, 1980, 2012, Number.NaN, 2011);
    const material = { codes: Int32Array.of(1, 1, 0, 1, 0, -1), words: ['eifs', 'stucco'] };
    const tier = Int32Array.of(0, 4, 1, 2, 1, 3);
    const tally = matrix(
      matrixCells(years, eraBands, material, tier),
      Uint8Array.of(0, 0, 1, 0, 1, 1),
    );
    expect(tally.words).toEqual(['stucco', 'eifs', null]);
    // before 1980, 1980-1999, 2000-2011, from 2012, no record
    expect(Array.from(tally.whole)).toEqual([2, 0, 0, 1, 0, 0, 1, 0, 0, 1, 0, 0, 1, 0, 0]);
    expect(Array.from(tally.kept)).toEqual([0, 0, 0, 0, 0, 0, 1, 0, 0, 1, 0, 0, 1, 0, 0]);
    expect(Array.from(tally.pressing)).toEqual([0, 0, 0, 0, 0, 0, 1, 0, 0, 1, 0, 0, 0, 0, 0]);
  });
});

describe('all four views at once', () => {
  const rows = fc.sample(building, { numRuns: 40, seed: 6 });
  const columns: ViewColumns = {
    tier: { codes: codes(rows, 'tier'), words: tiers },
    index: doubles(rows, 'index'),
    installed_used: doubles(rows, 'installed'),
    material: { codes: codes(rows, 'material'), words: materials },
    region: { codes: codes(rows, 'region'), words: regions },
  };
  const density = wettingByNeed(doubles(rows, 'wetting'), doubles(rows, 'adequacy'));
  const open: ViewMasks = { all: null, histogram: null, density: null, matrix: null, bars: null };
  const total = (counts: Uint32Array) => counts.reduce((sum, n) => sum + n, 0);

  test('without conditions every view counts every building once', () => {
    const answer = tallyViews(viewCells(columns, density), open);
    expect(answer.shown).toBe(rows.length);
    expect(total(answer.histogram.kept) + answer.histogram.none).toBe(rows.length);
    expect(total(answer.density.kept) + answer.density.none).toBe(rows.length);
    expect(total(answer.matrix.kept)).toBe(rows.length);
    expect(total(answer.bars.kept)).toBe(rows.length);
  });

  test('each view is counted under its own mask, the rest of the portfolio stays beside it', () => {
    const few = Uint8Array.from(rows, (_, i) => (i < 7 ? 1 : 0));
    const answer = tallyViews(viewCells(columns, density), { ...open, all: few, matrix: few });
    expect(answer.shown).toBe(7);
    expect(total(answer.matrix.kept)).toBe(7);
    expect(total(answer.matrix.whole)).toBe(rows.length);
    expect(total(answer.bars.kept)).toBe(rows.length);
  });

  test('no column is set by two views', () => {
    const own = Object.values(ownColumns).flat();
    expect(new Set(own).size).toBe(own.length);
  });

  test('the edges of wetting reach past the largest value by a round step', () => {
    const { x } = tallyViews(viewCells(columns, density), open).density;
    const most = Math.max(...rows.map(({ wetting }) => wetting).filter((v) => !Number.isNaN(v)));
    expect(x.at(-1)).toBeGreaterThanOrEqual(most);
    expect(x[1]).toBe(10);
  });

  test('the eras are those of the priors, open at both ends and without a gap', () => {
    const bands = eraBands;
    expect(bands[0]?.from).toBeUndefined();
    expect(bands.at(-1)?.below).toBeUndefined();
    bands.slice(1).forEach((band, i) => {
      expect(band.from).toBe(bands[i]?.below);
    });
  });
});
