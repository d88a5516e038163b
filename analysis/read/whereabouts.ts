import type { Centroid, PostalArea } from '../place/postal.ts';
import type { Country, Region } from '../place/regions.ts';
import type { Complaint } from './sentences.ts';

/** The cells that say where a building stands, as written and as read (NaN or null for no record). */
export interface Whereabouts {
  readonly latitudeText: string;
  readonly longitudeText: string;
  readonly latitude: number;
  readonly longitude: number;
  readonly region: string | null;
  readonly postalCode: string | null;
}

/** What the list of US postal codes knows of a building's code. */
export interface PostalRecord {
  /** With its zeros restored. */
  readonly code: string;
  readonly area: PostalArea;
  /** Not where three or four digits may be another country's code: then it confirms a place and contradicts none. */
  readonly sure: boolean;
}

/** Where an accepted building stands. */
export interface Place extends Centroid {
  readonly source: 'coordinates' | 'postal centroid';
  /** How far from there the building may stand, km: the reach of its postal code; NaN for coordinates. */
  readonly km: number;
  readonly region: Region | null;
  /** Whether the list gives the region, known to us or not, or its postal code does; null where neither. */
  readonly regionSource: 'record' | 'postal code' | null;
  readonly country: Country | null;
  /** What to note about it. */
  readonly note: Complaint | null;
}
