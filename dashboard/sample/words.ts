import type { Design, SampleUnit, StratumField } from '../../analysis/sample/types.ts';
import type { Units } from '../parts/quantity.ts';
import { filterWords } from '../rank/filter-sentence.ts';
import type { Filters } from '../state/page-state.ts';

export const unitWords: readonly { readonly value: SampleUnit; readonly word: string }[] = [
  { value: 'wall', word: 'wall' },
  { value: 'building', word: 'building' },
];

/** What a unit stands for, wherever the unit is printed. */
export const unitMeaning: Readonly<Record<SampleUnit, string>> = {
  wall: 'Unit: wall. Each scored wall may be drawn; the walls of one building are a cluster. A filter chooses buildings: all their scored walls are in the population, whatever their cladding.',
  building:
    'Unit: building. Each building may be drawn; what is opened is the wall that sets its index.',
};

export const fieldWords: readonly { readonly field: StratumField; readonly word: string }[] = [
  { field: 'tier', word: 'tier' },
  { field: 'material', word: 'material' },
  { field: 'era', word: 'era' },
  { field: 'orientation', word: 'orientation' },
  { field: 'height', word: 'height' },
];

/** Each design, and in a sentence what it is for. */
export const designWords: readonly {
  readonly design: Design;
  readonly word: string;
  readonly use: string;
}[] = [
  {
    design: 'simple',
    word: 'simple random',
    use: 'every unit has the same chance; the easiest to explain and to defend, and the plainest interval.',
  },
  {
    design: 'stratified',
    word: 'stratified',
    use: 'each stratum gets its own openings, so that none is missed and each can be spoken of by itself.',
  },
  {
    design: 'pps',
    word: 'by size, systematic',
    use: 'chances in proportion to wetting × area: more of the openings go where more water lands, and estimates of area are sharper.',
  },
  {
    design: 'replicated',
    word: 'by size, replicated',
    use: 'several independent draws by size: their differences alone give the interval, with no approximation.',
  },
  {
    design: 'balanced',
    word: 'balanced',
    use: 'spreads the openings over the map, the wetting and the index, so that the sample looks like the population.',
  },
];

/** The population in words, for the plan: the filter as a noun phrase. */
export function populationWords(unit: SampleUnit, filters: Filters, units: Units): string {
  const filtered = filterWords(filters, units);
  const of = unit === 'wall' ? 'Scored walls of buildings' : 'Scored buildings';
  return filtered === '' ? `${of}, the whole portfolio` : `${of} ${filtered}`;
}
