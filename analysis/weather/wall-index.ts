import {
  obstructionSteps,
  sentencesAbout,
  type TerrainCategory,
  terrainOf,
  weatherConstant,
} from './tables.ts';

/** What the wall index of ISO 15927-3 asks for besides the airfield index. NaN is not known. */
export interface WallPlace {
  readonly terrain: TerrainCategory | null;
  /** Height above ground of the part of the wall looked at, m. */
  readonly heightM: number;
  /** Distance to the nearest obstruction in front of the wall, m; Infinity where there is none. */
  readonly obstructionM: number;
  /** W, by the user: it depends on the kind of wall, overhangs and details, and has no default. */
  readonly wallFactor: number;
}

/** I_WA = I_A · C_R · C_T · O · W, with its factors, or why it is not given. */
export type WallIndex =
  | {
      readonly given: true;
      /** L/m² a year, which is mm a year. */
      readonly wallIndexMm: number;
      readonly roughness: number;
      readonly topography: number;
      readonly obstruction: number;
      readonly wallFactor: number;
      readonly notes: readonly string[];
      /** The limits of ISO 15927-3: to stand beside the index. */
      readonly isoLimits: readonly string[];
    }
  | { readonly given: false; readonly why: string };

/** C_R = K_R ln(max(z, z_min) / z0), z the height in m; not rounded. */
export function roughnessCoefficient(category: TerrainCategory, heightM: number): number {
  const { factor, roughnessM, leastHeightM } = terrainOf(category);
  return factor * Math.log(Math.max(heightM, leastHeightM) / roughnessM);
}

/** O by the distance to the obstruction, m. The table begins at 4 m; nearer ones take its first value. */
export const obstructionFactor = (distanceM: number): number =>
  obstructionSteps.find(({ upToM }) => distanceM <= upToM)!.factor;

/** Why the wall index cannot be given, in the order in which it is asked for. */
function lacking({ terrain, heightM, obstructionM, wallFactor }: WallPlace): string | null {
  if (Number.isNaN(wallFactor)) {
    return 'No wall index: the wall factor W depends on the kind of wall and has no default. Enter W to have it.';
  }
  if (!(wallFactor > 0 && wallFactor <= 1)) {
    return `No wall index: a wall factor W of ${wallFactor} is not above 0 and up to 1. Correct W.`;
  }
  if (terrain === null)
    return 'No wall index: the terrain category is not known. Choose one of I to IV.';
  if (!(heightM >= 0))
    return 'No wall index: the height of the wall is not known. Enter it in metres.';
  if (!(obstructionM >= 0)) {
    return 'No wall index: the distance to the nearest obstruction is not known. Enter it in metres, or say that there is none.';
  }
  return null;
}

/**
 * Wall annual index of ISO 15927-3 from the airfield annual index of the azimuth the wall faces (mm), rounded to
 * 1e-6 mm. Given only where everything it needs is known; C_T is that of level ground, and says so.
 */
export function wallIndex(airfieldIndexMm: number, place: WallPlace): WallIndex {
  const why = lacking(place);
  if (why !== null) return { given: false, why };
  const roughness = roughnessCoefficient(place.terrain!, place.heightM);
  const topography = weatherConstant('topography_factor');
  const obstruction = obstructionFactor(place.obstructionM);
  const { wallFactor } = place;
  const product = airfieldIndexMm * roughness * topography * obstruction * wallFactor;
  const near =
    place.obstructionM < 4
      ? ['The table of obstructions begins at 4 m; its first value is taken.']
      : [];
  return {
    given: true,
    wallIndexMm: Math.round(product * 1e6) / 1e6,
    roughness,
    topography,
    obstruction,
    wallFactor,
    notes: ['level ground assumed', ...near],
    isoLimits: sentencesAbout('airfield index'),
  };
}
