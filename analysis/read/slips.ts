import { agreesWithPostal, agreesWithRegion, type Evidence } from '../place/coordinates.ts';
import { negatedText } from './degrees.ts';

/** A coordinate as written and as read, degrees. */
export interface Angle {
  readonly text: string;
  readonly value: number;
}

/** Slips of one cell: a sign lost or astray, a longitude counted from 0 to 360, a decimal point lost. */
export type Slip = 'sign' | 'turn' | 'point';

/** What a cell would say had certain slips not been made. */
export interface Reading extends Angle {
  readonly slips: readonly Slip[];
}

export interface Correction {
  readonly latitude: Reading;
  readonly longitude: Reading;
  readonly swapped: boolean;
}

/** `47608013` may have been 4.76…, 47.6… or 476.…; a number that is no longitude either has lost its point. */
function pointed({ value }: Angle): Reading[] {
  if (!Number.isSafeInteger(value) || Math.abs(value) <= 90) return [];
  const digits = `${Math.abs(value)}`;
  return [1, 2, 3].map((places) => {
    const text = `${value < 0 ? '-' : ''}${digits.slice(0, places)}.${digits.slice(places)}`;
    return { text, value: Number(text), slips: ['point'] };
  });
}

/** To 1e-7°, a centimetre: the difference of two numbers has more digits than either. */
function turned({ value }: Angle): Reading[] {
  if (value <= 180 || value > 360) return [];
  const west = Math.round((value - 360) * 1e7) / 1e7;
  return [{ text: `${west}`, value: west, slips: ['turn'] }];
}

const negated = ({ text, value, slips }: Reading): Reading => ({
  text: negatedText(text),
  value: -value,
  slips: [...slips, 'sign'],
});

function readingsOf(angle: Angle): Reading[] {
  const upright: Reading[] = [{ ...angle, slips: [] }, ...pointed(angle)];
  return [...upright, ...upright.map(negated), ...turned(angle)].filter(
    ({ value }) => Math.abs(value) <= 180,
  );
}

const slipsIn = ({ latitude, longitude, swapped }: Correction): number =>
  latitude.slips.length + longitude.slips.length + (swapped ? 1 : 0);

function candidates(latitude: Angle, longitude: Angle): Correction[] {
  const [upper, lower] = [readingsOf(latitude), readingsOf(longitude)];
  const paired = (ys: Reading[], xs: Reading[], swapped: boolean): Correction[] =>
    ys.flatMap((y) => xs.map((x) => ({ latitude: y, longitude: x, swapped })));
  return [...paired(upper, lower, false), ...paired(lower, upper, true)].filter(
    (pair) => Math.abs(pair.latitude.value) <= 90 && slipsIn(pair) > 0,
  );
}

/** The one with fewest slips; null where there is none, or where two as good lie at different places. */
function best(found: readonly Correction[]): Correction | null {
  const fewest = Math.min(...found.map(slipsIn));
  const [first, ...others] = found.filter((one) => slipsIn(one) === fewest);
  const same = others.every(
    (one) =>
      one.latitude.value === first!.latitude.value &&
      one.longitude.value === first!.longitude.value,
  );
  return first && same ? first : null;
}

/**
 * What the coordinates would be, had the likeliest slips not been made: the fewest that bring the place within reach of
 * region and postal code, else of the region alone. Null where nothing does, or nothing is known to hold it against.
 */
export function correctionOf(
  latitude: Angle,
  longitude: Angle,
  evidence: Evidence,
): Correction | null {
  if (!evidence.region && !evidence.area) return null;
  const inRegion = candidates(latitude, longitude).filter((one) =>
    agreesWithRegion(evidence, one.latitude.value, one.longitude.value),
  );
  const inBoth = inRegion.filter((one) =>
    agreesWithPostal(evidence, one.latitude.value, one.longitude.value),
  );
  return best(inBoth) ?? (evidence.region ? best(inRegion) : null);
}

/** Latitude and longitude exchanged, nothing else. */
export const exchange = (latitude: Angle, longitude: Angle): Correction => ({
  latitude: { ...longitude, slips: [] },
  longitude: { ...latitude, slips: [] },
  swapped: true,
});
