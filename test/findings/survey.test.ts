import { describe, expect, test } from 'vitest';
import type { Answer, Selected } from '../../analysis/findings/answer.ts';
import { designVariance } from '../../analysis/findings/design-variance.ts';
import { estimateShare, perArea, perUnit, type Question } from '../../analysis/findings/share.ts';
import { clusterVariance, elementVariance } from '../../analysis/findings/variance.ts';
import { type ResponseClass, responseClasses } from '../../analysis/findings/weights.ts';
import type { Design } from '../../analysis/sample/types.ts';
import { fixture } from './reference.ts';

interface Row {
  readonly stype: string;
  readonly dnum: number;
  readonly y: number;
  readonly a: number;
  readonly fpc: number;
  readonly rep: number;
  readonly pw: number;
  readonly p: number;
  readonly Bush: number;
}
interface Share {
  readonly share: number;
  readonly se: number;
  readonly deff: number;
  readonly low: number;
  readonly high: number;
  readonly df: number;
}
interface Sample {
  readonly rows: readonly Row[];
  readonly share: Share;
  readonly area: { readonly share: number; readonly se: number };
}

/** Estimates of the R packages survey and sampling, by test/reference/findings/survey.R. */
const reference = fixture<{
  readonly stratified: Sample;
  readonly simple: Sample;
  readonly answered: Sample;
  readonly lonely: Sample;
  readonly clustered: Sample;
  readonly replicated: Pick<Sample, 'share'>;
  readonly pps: {
    readonly rows: readonly Row[];
    readonly total: number;
    readonly deville_se: number;
    readonly share: number;
    readonly brewer_se: number;
    readonly deville_share_se: number;
  };
}>('survey.json');

const answer = (row: Row, i: number, more: Partial<Answer>): Answer => ({
  unit: `${i}`,
  stratum: '',
  cluster: `${i}`,
  probability: 1,
  certainty: false,
  replicate: null,
  place: [],
  areaM2: row.a,
  softened: row.y === 1,
  ...more,
});

/** Classes of a stratified sample in which every stratum was drawn at random; `selected` of it where not all answered. */
function stratifiedClasses(rows: readonly Row[], selected: readonly Row[] = rows): ResponseClass[] {
  const names = [...new Set(rows.map(({ stype }) => stype))];
  const count = (stratum: string): number =>
    selected.filter(({ stype }) => stype === stratum).length;
  const kinds = names.map((stratum): Selected => {
    const size = selected.find(({ stype }) => stype === stratum)!.fpc;
    return { stratum, certainty: false, size, selected: count(stratum), expansion: size };
  });
  const answers = rows.map((row, i) =>
    answer(row, i, { stratum: row.stype, probability: count(row.stype) / row.fpc }),
  );
  return responseClasses(kinds, answers);
}

const asking = (design: Design): Question => ({ design, confidence: 0.95, detection: 1 });

function agrees(got: ReturnType<typeof estimateShare>, wanted: Share): void {
  expect(got.share).toBeCloseTo(wanted.share, 10);
  expect(got.standardError).toBeCloseTo(wanted.se, 10);
  expect(got.designEffect).toBeCloseTo(wanted.deff, 8);
}

describe('estimates of a design, against the survey package', () => {
  const { stratified, simple, answered, lonely, clustered, replicated, pps } = reference;

  test('stratified: share, standard error, design effect and the Korn-Graubard interval', () => {
    const got = estimateShare(stratifiedClasses(stratified.rows), asking('stratified'));
    agrees(got, stratified.share);
    expect(got.low).toBeCloseTo(stratified.share.low, 9);
    expect(got.high).toBeCloseTo(stratified.share.high, 9);
    // The digits of the design page: apistrat awards share.
    expect(got.share).toBeCloseTo(0.63893606, 7);
    expect(got.standardError).toBeCloseTo(0.03440592, 7);
    expect([got.low, got.high].map((x) => x.toFixed(7))).toEqual(['0.5672187', '0.7063548']);
    expect(got.interval).toBe('Korn-Graubard');
  });

  test('simple random: the same, but for the interval, which is exact', () => {
    const rows = simple.rows.map((row) => ({ ...row, stype: '' }));
    const got = estimateShare(stratifiedClasses(rows), asking('simple'));
    agrees(got, simple.share);
    expect(got.interval).toBe('exact hypergeometric');
  });

  test('the share of area is the combined ratio, with its linearised standard error', () => {
    const rows = simple.rows.map((row) => ({ ...row, stype: '' }));
    const ofSimple = estimateShare(stratifiedClasses(rows), asking('simple'), perArea);
    expect(ofSimple.share).toBeCloseTo(simple.area.share, 10);
    expect(ofSimple.standardError).toBeCloseTo(simple.area.se, 10);
    const ofStrata = estimateShare(
      stratifiedClasses(stratified.rows),
      asking('stratified'),
      perArea,
    );
    expect(ofStrata.share).toBeCloseTo(stratified.area.share, 10);
    expect(ofStrata.standardError).toBeCloseTo(stratified.area.se, 10);
  });

  test('answers stand for the unanswered of their stratum', () => {
    const classes = stratifiedClasses(answered.rows, stratified.rows);
    agrees(estimateShare(classes, asking('stratified')), answered.share);
  });

  test('a stratum with one answer adds its distance from the overall share (lonely.psu = "adjust")', () => {
    const got = estimateShare(stratifiedClasses(lonely.rows), asking('stratified'));
    expect(got.share).toBeCloseTo(lonely.share.share, 10);
    expect(got.standardError).toBeCloseTo(lonely.share.se, 10);
  });

  test('ultimate clusters: only whole clusters vary', () => {
    const share = clustered.rows.reduce((sum, { y }) => sum + y, 0) / clustered.rows.length;
    const terms = {
      z: clustered.rows.map(({ y }) => (y - share) / clustered.rows.length),
      chance: clustered.rows.map(({ fpc }) => 15 / fpc),
    };
    const ids = clustered.rows.map(({ dnum }) => `${dnum}`);
    const { variance, degreesOfFreedom } = clusterVariance(terms, ids);
    expect(Math.sqrt(variance)).toBeCloseTo(clustered.share.se, 10);
    expect(degreesOfFreedom).toBe(clustered.share.df);
  });

  test('replicates: only whole draws vary', () => {
    const rows = stratified.rows;
    const share = replicated.share.share;
    const total = rows.reduce((sum, { pw }) => sum + pw, 0);
    const members = rows.map((row, i) => ({
      ...answer(row, i, { replicate: row.rep, probability: 1 / row.pw }),
      weight: row.pw,
      chance: 1 / row.pw,
    }));
    const one = { stratum: '', certainty: false, size: total, selected: 200, expansion: total };
    const residual = ({ softened }: Answer): number => ((softened ? 1 : 0) - share) / total;
    const got = designVariance('replicated', [{ ...one, members }], residual);
    expect(Math.sqrt(got.variance)).toBeCloseTo(replicated.share.se, 10);
    expect(got.degreesOfFreedom).toBe(replicated.share.df);
    expect(estimateShare([{ ...one, members }], asking('replicated'), perUnit).share).toBeCloseTo(
      share,
      10,
    );
  });

  test("unequal chances: Deville's variance of a total and of a share", () => {
    const chance = pps.rows.map(({ p }) => p);
    const total = elementVariance({ z: pps.rows.map(({ Bush, p }) => Bush / p), chance });
    expect(Math.sqrt(total.variance) / pps.deville_se).toBeCloseTo(1, 10);
    // The digits of the design page: election_pps, Bush.
    expect(Math.round(Math.sqrt(total.variance))).toBe(2433772);
    const expansion = chance.reduce((sum, p) => sum + 1 / p, 0);
    const kind = { stratum: '', certainty: false, size: 4600, selected: 40, expansion };
    const answers = pps.rows.map((row, i) => answer(row, i, { probability: row.p }));
    const got = estimateShare(responseClasses([kind], answers), asking('pps'));
    expect(got.share).toBeCloseTo(pps.share, 10);
    expect(got.standardError).toBeCloseTo(pps.deville_share_se, 10);
    expect(got.standardError / pps.brewer_se).toBeCloseTo(1, 2);
    expect(got.variance).toContain('approximate');
  });
});
