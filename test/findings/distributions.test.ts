import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { betaBelow, betaQuantile } from '../../analysis/findings/beta.ts';
import { binomialAtMost, binomialChance } from '../../analysis/findings/binomial.ts';
import { hypergeometricChance, seenAtMost } from '../../analysis/findings/hypergeometric.ts';
import { normalQuantile, studentQuantile } from '../../analysis/findings/quantiles.ts';
import { fixture } from './reference.ts';

fc.configureGlobal({ seed: 20261125 });

interface Value {
  readonly value: number;
}
type Shape = { readonly a: number; readonly b: number };
type Tail = Value & { readonly x: number; readonly below: number };

const reference = fixture<{
  readonly beta: readonly (Value & Shape & { readonly x: number })[];
  readonly beta_quantile: readonly (Value & Shape & { readonly p: number })[];
  readonly t: readonly (Value & { readonly p: number; readonly df: number })[];
  readonly normal: readonly (Value & { readonly p: number })[];
  readonly binomial: readonly (Tail & { readonly n: number; readonly p: number })[];
  readonly hypergeometric: readonly (Tail & {
    readonly size: number;
    readonly marked: number;
    readonly drawn: number;
  })[];
}>('distributions.json');

/** Values of R, by test/reference/findings/distributions.R. */
const near = (got: number, wanted: number, label: string): void => {
  const error = Math.abs(got - wanted) / Math.max(Math.abs(wanted), 1e-9);
  expect(error, `${label}: ${got}, R ${wanted}`).toBeLessThan(1e-9);
};

describe('distributions, against R to nine digits', () => {
  test('incomplete beta: pbeta', () => {
    for (const { a, b, x, value } of reference.beta)
      near(betaBelow(x, a, b), value, `${a} ${b} ${x}`);
  });
  test('beta quantile: qbeta', () => {
    for (const { a, b, p, value } of reference.beta_quantile) {
      near(betaQuantile(p, a, b), value, `${p} ${a} ${b}`);
    }
  });
  test("Student's t quantile: qt", () => {
    for (const { p, df, value } of reference.t) near(studentQuantile(p, df), value, `${p} ${df}`);
  });
  test('normal quantile: qnorm', () => {
    for (const { p, value } of reference.normal) near(normalQuantile(p), value, `${p}`);
    expect(studentQuantile(0.975, Infinity)).toBe(normalQuantile(0.975));
  });
  test('binomial: dbinom, pbinom', () => {
    for (const { x, n, p, value, below } of reference.binomial) {
      near(binomialChance(x, n, p), value, `d ${x} ${n} ${p}`);
      near(binomialAtMost(x, n, p), below, `p ${x} ${n} ${p}`);
    }
  });
  test('hypergeometric: dhyper, phyper', () => {
    for (const { x, value, below, ...draw } of reference.hypergeometric) {
      near(hypergeometricChance(x, draw), value, `d ${x} ${JSON.stringify(draw)}`);
      near(seenAtMost(x, draw), below, `p ${x} ${JSON.stringify(draw)}`);
    }
  });
});

describe('what must hold of any distribution', () => {
  const shape = fc.double({ min: 0.5, max: 2000, noNaN: true });
  const share = fc.double({ min: 0.001, max: 0.999, noNaN: true });

  test('I_x(a, b) = 1 − I_{1−x}(b, a)', () => {
    fc.assert(
      fc.property(share, shape, shape, (x, a, b) => {
        expect(betaBelow(x, a, b) + betaBelow(1 - x, b, a, x)).toBeCloseTo(1, 11);
      }),
    );
  });
  test('the beta quantile undoes the beta distribution', () => {
    fc.assert(
      fc.property(share, shape, shape, (p, a, b) => {
        const x = betaQuantile(p, a, b);
        if (x > 1e-9 && x < 1 - 1e-9) expect(betaBelow(x, a, b)).toBeCloseTo(p, 9);
      }),
    );
  });
  test('an opening that misses never makes a count more likely to be exceeded', () => {
    const draw = fc.record({ marked: fc.nat(40), drawn: fc.integer({ min: 1, max: 40 }) });
    fc.assert(
      fc.property(draw, fc.nat(10), share, ({ marked, drawn }, x, detection) => {
        const whole = { size: 40, marked, drawn };
        expect(seenAtMost(x, whole, detection)).toBeGreaterThanOrEqual(
          seenAtMost(x, whole) - 1e-12,
        );
      }),
    );
  });
});
