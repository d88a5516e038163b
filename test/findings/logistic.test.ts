import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  devianceOf,
  fitLogistic,
  linear,
  type Outcomes,
} from '../../analysis/findings/logistic.ts';
import { fixture } from './reference.ts';

fc.configureGlobal({ seed: 20261125 });

interface Birth {
  readonly low: number;
  readonly age: number;
  readonly lwt: number;
  readonly smoke: number;
}
/** MASS::birthwt in R: glm, and ridge by glmnet and by a quasi-Newton search; test/reference/findings/logistic.R. */
const reference = fixture<{
  readonly rows: readonly Birth[];
  readonly weight: readonly number[];
  readonly glm: readonly number[];
  readonly log_likelihood: number;
  readonly ridge: readonly {
    readonly penalty: number;
    readonly glmnet: readonly number[];
    readonly optim: readonly number[];
  }[];
}>('logistic.json');

const { rows } = reference;
const columns = [
  rows.map(({ age }) => age),
  rows.map(({ lwt }) => lwt),
  rows.map(({ smoke }) => smoke),
];
const y = Float64Array.from(rows, ({ low }) => low);

const mean = (values: readonly number[]): number =>
  values.reduce((sum, v) => sum + v, 0) / values.length;

function scaled(values: readonly number[]): number[] {
  const centre = mean(values);
  const sd = Math.sqrt(values.reduce((sum, v) => sum + (v - centre) ** 2, 0) / (values.length - 1));
  return values.map((v) => (v - centre) / sd);
}

const rowsOf = (predictors: readonly (readonly number[])[]): Float64Array[] =>
  rows.map((_, i) => Float64Array.from([1, ...predictors.map((column) => column[i]!)]));

describe('logistic regression', () => {
  test('without penalty: coefficients and likelihood of glm on MASS::birthwt', () => {
    const outcomes = { x: rowsOf(columns), y, weight: new Float64Array(y.length).fill(1) };
    const { beta } = fitLogistic(outcomes, 0, new Float64Array(4));
    beta.forEach((b, k) => {
      expect(b).toBeCloseTo(reference.glm[k]!, 9);
    });
    // The digits of the design page.
    expect(Array.from(beta, (b) => b.toFixed(8))).toEqual([
      '1.36822527',
      '-0.03899458',
      '-0.01213854',
      '0.67076374',
    ]);
    const deviance = y.reduce(
      (sum, one, i) => sum + devianceOf(linear(beta, outcomes.x[i]!), one),
      0,
    );
    expect(-deviance / 2).toBeCloseTo(reference.log_likelihood, 9);
  });

  test('weighted ridge: glmnet, and a quasi-Newton search from there', () => {
    const weight = Float64Array.from(reference.weight);
    const outcomes: Outcomes = { x: rowsOf(columns.map(scaled)), y, weight };
    for (const { penalty, glmnet, optim } of reference.ridge) {
      const { beta } = fitLogistic(outcomes, penalty, new Float64Array(4));
      beta.forEach((b, k) => {
        expect(b).toBeCloseTo(optim[k]!, 6);
        expect(b).toBeCloseTo(glmnet[k]!, 6);
      });
    }
  });

  const someRows = fc.array(
    fc.record({
      a: fc.double({ min: -3, max: 3, noNaN: true }),
      b: fc.double({ min: -3, max: 3, noNaN: true }),
      y: fc.constantFrom(0, 1),
      weight: fc.double({ min: 0.1, max: 5, noNaN: true }),
    }),
    { minLength: 5, maxLength: 40 },
  );

  test('with a penalty there is a fit, also where the outcomes part cleanly, and its gradient is nil', () => {
    fc.assert(
      fc.property(someRows, fc.double({ min: 0.05, max: 50, noNaN: true }), (some, penalty) => {
        fc.pre(new Set(some.map((one) => one.y)).size === 2);
        const x = some.map(({ a, b }) => Float64Array.of(1, a, b));
        const outcomes = {
          x,
          y: Float64Array.from(some, (one) => one.y),
          weight: Float64Array.from(some, (one) => one.weight),
        };
        const { beta } = fitLogistic(outcomes, penalty, new Float64Array(3));
        for (const k of [0, 1, 2]) {
          const slope = some.reduce((sum, one, i) => {
            const p = 1 / (1 + Math.exp(-linear(beta, x[i]!)));
            return sum + one.weight * (one.y - p) * x[i]![k]!;
          }, 0);
          expect(slope - (k === 0 ? 0 : penalty * beta[k]!)).toBeCloseTo(0, 6);
        }
      }),
    );
  });
});
