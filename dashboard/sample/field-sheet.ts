import { cautions } from '../../analysis/cautions.ts';
import type { PlanLine } from '../../analysis/survey/plan-table.ts';
import { around, type Locator, locatorOf, type Place } from './locator.ts';

/** Where water usually enters, in the order in which a wall is walked from above (common practice, no source). */
export const entryPlaces: readonly { readonly place: string; readonly location: string }[] = [
  { place: 'Window and door heads', location: 'window_head' },
  { place: 'Window sills and lower corners', location: 'sill_corner' },
  { place: 'Kick-outs where a roof ends at the wall', location: 'kickout' },
  { place: 'Penetrations: pipes, vents, lights, hose bibs', location: 'penetration' },
  { place: 'Terminations: tops, edges, joints of claddings', location: 'termination' },
  { place: 'Deck and balcony ledgers', location: 'deck_ledger' },
  { place: 'Base of wall', location: 'base' },
  { place: 'Field of the wall, away from details', location: 'field' },
];

/** Notice, evidence and precautions before, during and after an opening: the cautions of the method as a checklist. */
export const protocol: readonly { readonly when: string; readonly steps: readonly string[] }[] = [
  {
    when: 'Before',
    steps: [
      'Written notice and protocol given to all parties (where there is or may be a dispute)',
      'Warranties and right-to-repair notices checked',
      'Owner’s and occupants’ consent; permits',
      'Asbestos survey; lead precautions (US, before 1978)',
      'Live power and gas located; fall protection; stone overhead secured',
      'Structural engineer asked where decayed framing may be holding something up',
    ],
  },
  {
    when: 'Opening',
    steps: [
      'Photographed before, in each layer and after, with scale and label',
      'Dust and mould kept in; nothing discarded',
      'What is removed labelled, kept, and its custody noted',
      'Wall closed weathertight; who made good, and when',
    ],
  },
];

/** Cautions that stand on top of every field sheet, the first to be acted on first. */
export const sheetCautions = [
  'ACT-NOW',
  'BEFORE-CUTTING',
  'OPENING-DESTROYS',
  'METER-READINGS',
].map((id) => {
  const found = cautions.find((caution) => caution.id === id);
  if (!found) throw new Error(`there is no caution ${id}`);
  return found;
});

/** One line a unit: independent draws may take a wall more than once, and it is opened once. */
export const sheetLines = (lines: readonly PlanLine[]): PlanLine[] => {
  const seen = new Set<string>();
  return lines.filter(({ unit }) => !seen.has(unit.id) && seen.add(unit.id));
};

/** Places of the sampled buildings, each once; buildings without a place are left out. */
export function placesOf(lines: readonly PlanLine[]): Place[] {
  const places = lines.flatMap(({ unit, field }): [string, Place][] => {
    const { latitude, longitude } = field.wall;
    return typeof latitude === 'number' && typeof longitude === 'number'
      ? [[unit.cluster, { id: unit.cluster, latitude, longitude }]]
      : [];
  });
  return [...new Map(places).values()];
}

/** The map of each building that has a place: itself among its nearest. */
export function locatorsOf(places: readonly Place[], kmPerUnit: number): Map<string, Locator> {
  return new Map(
    places.flatMap(({ id }, i): [string, Locator][] => {
      const found = locatorOf(around(places, i), kmPerUnit);
      return found ? [[id, found]] : [];
    }),
  );
}
