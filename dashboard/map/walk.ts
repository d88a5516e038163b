/** A walk over the buildings in view, by keyboard: the order, and where in it one stands. */
export interface Walk {
  readonly order: Uint32Array;
  readonly at: number;
}

/** Stands on the first building of the order, or nowhere when it is empty. */
export const startWalk = (order: Uint32Array): Walk | undefined =>
  order.length > 0 ? { order, at: 0 } : undefined;

/** One step on, or back; past either end it begins again at the other. */
export const stepWalk = ({ order, at }: Walk, by: 1 | -1): Walk => ({
  order,
  at: (at + by + order.length) % order.length,
});

/** What is said on arrival: `3 of the 41 nearest the centre. Takes about …`. */
export const arrival = ({ order, at }: Walk, reason: string): string =>
  `${at + 1} of the ${order.length} nearest the centre. ${reason}`;
