import { findRegion } from '../../analysis/place/regions.ts';
import { readLines } from './lines.ts';

const source = 'GeoNames through vega-datasets 3.2.1 zipcodes.csv (snapshot of 2017; CC BY 4.0)';

interface Stretch {
  readonly from: string;
  readonly to: string;
  readonly state: string;
}

const prefix = (zip: string): number => Number(zip.slice(0, 3));

/** Whether a code goes on where the stretch ends: in its state, with no three digits between that have no code on the list. */
const goesOn = (last: Stretch | undefined, zip: string, state: string): last is Stretch =>
  last?.state === state && prefix(zip) - prefix(last.to) <= 1;

function stretches(lines: readonly string[]): Stretch[] {
  const found: Stretch[] = [];
  for (const line of lines.toSorted()) {
    const [zip, , , , state] = line.split(',') as [string, string, string, string, string];
    const last = found.at(-1);
    if (goesOn(last, zip, state)) found[found.length - 1] = { ...last, to: zip };
    else found.push({ from: zip, to: zip, state });
  }
  return found;
}

/**
 * Text of data/postal/states.csv: the stretches of US postal codes whose listed codes all lie in one state, of the states
 * in data/regions.csv. The centre of a code may be wrong (see `codeOf` in build.ts) where its state is right, so this is
 * made from the whole list. Write it with `npx vitest run test/place -u`.
 */
export function makeStates(): string {
  const rows = stretches(readLines())
    .filter(({ state }) => findRegion(state))
    .map(({ from, to, state }) => [from, to, state, source].join(','));
  return `${['from,to,region,source', ...rows].join('\n')}\n`;
}
