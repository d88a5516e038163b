import type { Inputs } from '../../analysis/session-types.ts';
import { generateDemo } from '../../data/demo/generate.ts';
import { fileSource } from './files.ts';

/** The invented example, as two files like any user's. */
export function demoInputs(): Inputs {
  const { buildingsCsv, wallsCsv } = generateDemo({});
  return {
    demo: true,
    buildings: fileSource(new File([buildingsCsv], 'invented-buildings.csv', { type: 'text/csv' })),
    walls: [fileSource(new File([wallsCsv], 'invented-walls.csv', { type: 'text/csv' }))],
  };
}
