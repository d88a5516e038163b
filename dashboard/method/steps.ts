/** The method in plain sentences, in the order in which a number comes about. */
export interface Step {
  readonly title: string;
  readonly text: string;
  readonly formula?: string;
  readonly source?: string;
}

export const steps: readonly Step[] = [
  {
    title: 'Rain at the building',
    text: 'Annual precipitation, melted snow included, read from a grid between its four nearest nodes, and adjusted by stations where leaving them out in turn shows that this reads better. Where no node with data lies within reach, the building is not scored; it is never scored as dry. The rain has a range, because a grid is not a gauge at the door.',
  },
  {
    title: 'Wetting of a wall',
    text: 'The part of the rain that wind drives onto the wall: more for tall and exposed walls, less under a steep roof, all of it where runoff from above falls on the wall. Without a wind record every direction counts the same, and the page says so.',
    formula: 'wetting = 0.2 · F_E · F_D · κ · U · rain, in L/m² a year',
    source:
      'ASHRAE Standard 160, from memory of its load and factor tables; U without a wind record is judgement.',
  },
  {
    title: 'Drainage need',
    text: 'Which rules would ask for a drainage space behind this wall: the code when the wall was built, the newest code read here, and practice in rainy climates. Each answers asks, does not ask, or cannot tell with the missing fact. A code that does not ask does not say that none is needed.',
    source:
      'UBC 1997, IBC and IRC editions to 2021, NBC Canada from memory; 20 inches of rain and a quarter inch of drainage are common practice, no source.',
  },
  {
    title: 'Drainage state',
    text: 'What stands behind the cladding against what is asked now: absent, bond break only, marginal, provided, not applicable, or no record. Two papers are a bond break, not a drainage space. What is not on record is spread over what is likely for the material and the year.',
    formula: 'd = greater of 0.05 and 1 − adequacy; adequacy = gap ÷ gap asked, at most 1',
    source: 'Judgement, except the gaps asked.',
  },
  {
    title: 'Susceptibility of the sheathing',
    text: 'How readily the layer behind decays: OSB most, concrete and masonry least, more with age.',
    source: 'Judgement.',
  },
  {
    title: 'Index',
    text: 'The three terms multiplied. It sorts walls; it is not a probability and not an area of damage. The index of a building is that of its worst wall, which is named. Low and high show how far it may move with what is not known.',
    formula: 'index = 100 · w^α · d^β · s^γ, w = wetting ÷ (wetting + 100 L/m²)',
    source: 'Weights and the half-load of 100 L/m² are judgement.',
  },
  {
    title: 'Tier and rank',
    text: 'First look from 40, Next look from 25, Keep watch from 8, else No flag; Not scored where there is no rain. A reported, unrepaired leak sets at least Next look. Ties fall to the higher high end, then to the greater weighted area, then to the building’s key.',
    source:
      'Thresholds are judgement, tried against walls described in words (data/archetypes.csv).',
  },
];
