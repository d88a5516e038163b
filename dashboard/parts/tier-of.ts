import type { Tier } from '../../analysis/session-types.ts';
import type { Value } from './format.ts';

/** The tier of a ranking row, whose cells know no more than that they are texts. */
export const tierOf = ({ tier }: Readonly<Record<string, Value>>): Tier =>
  (tier ?? 'Not scored') as Tier;
