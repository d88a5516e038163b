import type { Design, SampleUnit, StratumField } from '../../analysis/sample/types.ts';

/** What a size is asked for. */
type Aim = 'proportion' | 'discovery';

/**
 * Everything the user has said about the sample, as typed: a field that is empty is empty, and what it lacks is said where
 * it is used. Shares and margins are in percent, the distance in km.
 */
export interface SampleForm {
  readonly unit: SampleUnit;
  /** In the order in which they were chosen. */
  readonly strata: readonly StratumField[];
  readonly aim: Aim;
  readonly margin: string;
  readonly confidence: string;
  readonly share: string;
  readonly catchShare: string;
  /** Chance from 0 to 1. */
  readonly detection: string;
  readonly currency: string;
  readonly opening: string;
  readonly repair: string;
  readonly access: string;
  readonly budget: string;
  readonly design: Design;
  readonly openings: string;
  readonly seed: string;
  readonly allocation: 'proportional' | 'neyman' | 'by hand';
  /** Expected share in percent, and openings set by hand, by stratum. */
  readonly shares: Readonly<Record<string, string>>;
  readonly byHand: Readonly<Record<string, string>>;
  readonly chances: 'equal' | 'by size';
  readonly replicates: string;
  readonly replacements: string;
  /** One a line: id, then a reason after a semicolon. */
  readonly exclusions: string;
  /** One id a line. */
  readonly mustInclude: string;
  readonly distanceKm: string;
  readonly withAzimuth: boolean;
  /** Null: made from the date. */
  readonly planId: string | null;
  readonly chosenBy: string;
  /** Dates as ISO 8601 writes them. */
  readonly chosenOn: string;
  readonly frameDate: string;
  /** Null: said from the aim. */
  readonly sizeReason: string | null;
}

/** The form before anything was typed, on a day. Costs have no default. */
export const firstForm = (day: string): SampleForm => ({
  unit: 'wall',
  strata: [],
  aim: 'proportion',
  margin: '10',
  confidence: '95',
  share: '50',
  catchShare: '10',
  detection: '1',
  currency: '',
  opening: '',
  repair: '',
  access: '',
  budget: '',
  design: 'simple',
  openings: '20',
  seed: '1',
  allocation: 'proportional',
  shares: {},
  byHand: {},
  chances: 'equal',
  replicates: '4',
  replacements: '1',
  exclusions: '',
  mustInclude: '',
  distanceKm: '0',
  withAzimuth: false,
  planId: null,
  chosenBy: '',
  chosenOn: day,
  frameDate: day,
  sizeReason: null,
});

/** The day of a clock where it stands, as ISO 8601 writes it. */
export const dayOf = (date: Date): string => {
  const two = (part: number) => String(part).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
};

/** A typed number; NaN where there is none. */
export const numberOf = (text: string): number =>
  text.trim() === '' ? Number.NaN : Number(text.trim());

/** A typed percentage as a share. */
export const shareOf = (text: string): number => numberOf(text) / 100;

/** With the field added last, or taken away. */
export const toggled = (
  fields: readonly StratumField[],
  field: StratumField,
): readonly StratumField[] =>
  fields.includes(field) ? fields.filter((one) => one !== field) : [...fields, field];

/** A name for a plan that no other has: its date, counted on where a day has several. */
export function planIdFor(day: string, taken: readonly string[]): string {
  const first = `plan-${day || 'undated'}`;
  const free = (id: string) => !taken.includes(id);
  if (free(first)) return first;
  const more = Array.from({ length: taken.length + 1 }, (_, i) => `${first}-${i + 2}`);
  return more.find(free) ?? first;
}
