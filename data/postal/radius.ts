import { group } from 'd3';
import { haversineKm } from '../../analysis/rain/great-circle.ts';
import { searchOf, treeOf } from '../../analysis/stations/nearest.ts';
import { positions } from '../../analysis/stations/sphere.ts';

/** One line of the source. */
export interface PostalCode {
  readonly zip: number;
  /** Degrees WGS 84. */
  readonly latitude: number;
  readonly longitude: number;
  /** With the state: there is a Springfield in many. */
  readonly town: string;
  readonly county: string;
}

/** An area of a map has six neighbours on average (Euler's formula); a building further off than their centres is theirs. */
const neighbours = 6;

/** Judgement: a centre is no surer than that, however near the next one, which may be that of a single tower. */
const leastKm = 1;
/** Judgement: islands and the far north have no near neighbours, yet their buildings stand in a town. */
const widestKm = 250;

/** Codes for post boxes and single addressees stand at one spot by the dozen. */
const spotOf = ({ latitude, longitude }: PostalCode): string => `${latitude} ${longitude}`;

const between = (a: PostalCode, b: PostalCode): number =>
  haversineKm(a.longitude, a.latitude, b.longitude, b.latitude);

/** Distance from each spot to the sixth nearest other one, km. */
function spacings(codes: readonly PostalCode[]): ReadonlyMap<string, number> {
  const spots = [...new Map(codes.map((code) => [spotOf(code), code])).values()];
  const at = positions(
    Float64Array.from(spots, ({ longitude }) => longitude),
    Float64Array.from(spots, ({ latitude }) => latitude),
  );
  const search = searchOf(treeOf(at), neighbours + 1);
  return new Map(
    spots.map((spot, i) => {
      const found = search.find(at, i);
      return [spotOf(spot), found > neighbours ? search.km[neighbours]! : widestKm];
    }),
  );
}

/**
 * An estimate of how far from its centre a building of each code may stand, km, in the order of `codes`. The source has
 * no outlines, so it is judged from centres alone:
 * - the distance to the sixth nearest centre of another place;
 * - a spot shared by several codes is no centre of theirs (98101, in the city of Seattle, is put in the Cascade
 *   mountains, at the middle of King County): it reaches past the farthest code of the same town that has a spot of its
 *   own, or of the same county where the town has none;
 * - a code with a spot of its own that stands apart from all others of its town is doubtful: it reaches the nearest;
 * - never less than 1 km or more than 250 km.
 */
export function radiiKm(codes: readonly PostalCode[]): number[] {
  const spacing = spacings(codes);
  const shared = group(codes, spotOf);
  const alone = codes.filter((code) => shared.get(spotOf(code))!.length === 1);
  const townsmen = group(alone, ({ town }) => town);
  const countymen = group(alone, ({ county }) => county);
  const own = (code: PostalCode): number => spacing.get(spotOf(code))!;
  const farthest = (code: PostalCode): number =>
    Math.max(
      0,
      ...(townsmen.get(code.town) ?? countymen.get(code.county) ?? []).map(
        (other) => between(code, other) + own(other),
      ),
    );
  const nearest = (code: PostalCode): number => {
    const others = townsmen.get(code.town)!.filter((other) => other !== code);
    return others.length === 0 ? 0 : Math.min(...others.map((other) => between(code, other)));
  };
  return codes.map((code) => {
    const reach = shared.get(spotOf(code))!.length > 1 ? farthest(code) : nearest(code);
    return Math.min(widestKm, Math.max(leastKm, own(code), reach));
  });
}
