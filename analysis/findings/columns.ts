import type { ColumnRule, Needs } from '../read/schema.ts';

const text = (name: string): ColumnRule => ({ name, kind: 'text' });
const word = (name: string): ColumnRule => ({ name, kind: 'vocabulary' });
const yesNo = (name: string): ColumnRule => ({ name, kind: 'yes_no' });

/** The columns of the findings, in the order of the contract. */
export const findingColumns: readonly ColumnRule[] = [
  { ...text('building_id'), identifier: true },
  { ...text('wall_id'), identifier: true },
  { name: 'observed_on', kind: 'date' },
  word('method'),
  yesNo('sheathing_seen'),
  word('condition'),
  { name: 'moisture_pct', kind: 'percent', unit: '%', range: [0, 200] },
  word('reading_scale'),
  word('location'),
  { name: 'extent_m2', kind: 'number', unit: 'm2', range: [0, 1e6] },
  yesNo('not_accessible'),
  { ...text('plan_id'), identifier: true },
  text('observer'),
  text('photo'),
  text('note'),
];

/** Headings that a file of findings must have. */
export const findingNeeds: Needs = [
  [['building_id']],
  [['wall_id']],
  [['condition'], ['not_accessible']],
];
