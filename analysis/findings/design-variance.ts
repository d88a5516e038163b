import type { Design } from '../sample/types.ts';
import {
  clusterVariance,
  elementVariance,
  neighbourVariance,
  replicateVariance,
  type Terms,
  type Variance,
} from './variance.ts';
import type { ResponseClass, Weighted } from './weights.ts';

/** How a variance was found, in words for the report. */
export type VarianceKind =
  | 'simple random, with finite population correction'
  | 'stratified, with finite population correction'
  | 'approximate: Deville, for unequal chances'
  | 'between replicates'
  | 'nearest neighbours'
  | 'ultimate clusters: the walls of a building together';

export interface DesignVariance extends Variance {
  readonly kind: VarianceKind;
}

type Form = readonly [
  kind: VarianceKind,
  of: (terms: Terms, members: readonly Weighted[]) => Variance,
];

const simple: Form = ['simple random, with finite population correction', elementVariance];
/** Units selected whatever the draw belong to no replicate. */
const replicates: Form = [
  'between replicates',
  (terms, members) =>
    members.every(({ certainty }) => certainty)
      ? elementVariance(terms)
      : replicateVariance(
          terms,
          members.map(({ replicate }) => replicate),
        ),
];
const clusters: Form = [
  'ultimate clusters: the walls of a building together',
  (terms, members) =>
    clusterVariance(
      terms,
      members.map(({ cluster }) => cluster),
    ),
];

/** The forms that belong to each design; the greatest of them is the headline. */
const forms: Readonly<Record<Design, readonly Form[]>> = {
  simple: [simple],
  stratified: [['stratified, with finite population correction', elementVariance], clusters],
  pps: [['approximate: Deville, for unequal chances', elementVariance], clusters],
  replicated: [replicates],
  balanced: [
    [
      'nearest neighbours',
      (terms, m) =>
        neighbourVariance(
          terms,
          m.map(({ place }) => place),
        ),
    ],
    simple,
    clusters,
  ],
};

/** Terms of a class: residuals are taken from its own mean, for its weights are scaled to the frame. */
function termsOf(members: readonly Weighted[], residual: (one: Weighted) => number): Terms {
  const e = members.map(residual);
  const total = members.reduce((sum, { weight }) => sum + weight, 0);
  const mean = members.reduce((sum, { weight }, i) => sum + weight * e[i]!, 0) / total;
  const own = members.length > 1 ? mean : 0;
  return {
    z: members.map(({ weight }, i) => weight * (e[i]! - own)),
    chance: members.map(({ chance }) => chance),
  };
}

function added(variances: readonly Variance[]): Variance {
  return {
    variance: variances.reduce((sum, { variance }) => sum + variance, 0),
    degreesOfFreedom: Math.max(
      1,
      variances.reduce((sum, { degreesOfFreedom }) => sum + degreesOfFreedom, 0),
    ),
  };
}

/** Whether walls of one building were opened together, so that the buildings are what varies. */
const anyTogether = (classes: readonly ResponseClass[]): boolean =>
  classes.some(
    ({ members }) => new Set(members.map(({ cluster }) => cluster)).size < members.length,
  );

/** Variance of Σ weight × residual over classes in which chance had a part, by the form that belongs to the design. */
export function designVariance(
  design: Design,
  classes: readonly ResponseClass[],
  residual: (one: Weighted) => number,
): DesignVariance {
  const terms = classes.map(({ members }) => termsOf(members, residual));
  const found = forms[design]
    .filter((form) => form !== clusters || anyTogether(classes))
    .map(([kind, of]) => ({
      kind,
      ...added(classes.map(({ members }, i) => of(terms[i]!, members))),
    }));
  return found.reduce((most, one) => (one.variance > most.variance ? one : most));
}
