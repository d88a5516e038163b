import type { Random } from '../../analysis/sample/random.ts';
import { between, chance, draw } from './random.ts';
import {
  type Behind,
  backing,
  behind,
  cladding,
  type Era,
  eraOfYear,
  type Kind,
  type Town,
} from './tables.ts';

/** What a wall is made of, as it really is, whatever the records say. */
export interface Assembly {
  readonly material: string;
  readonly sheathing: string;
  readonly installed: number;
  /** '' where the cladding has a way of draining of its own and nothing is put behind it. */
  readonly drainage: string;
  /** mm; 0 where there is none to measure. */
  readonly gapMm: number;
  /** Tested drainage efficiency, %; 0 where none was. */
  readonly efficiencyPct: number;
}

/** Which rows of behind.csv a cladding draws from. */
const families: Readonly<Record<string, string>> = {
  stucco: 'plaster',
  one_coat_stucco: 'plaster',
  adhered_stone: 'plaster',
  eifs: 'eifs',
  eifs_barrier: 'eifs',
  eifs_drained: 'drained',
  fiber_cement: 'siding',
  wood: 'siding',
  vinyl: 'siding',
};

/** Canada's coasts have built with a cavity since the repairs of the leaky years: rows `rainscreen` of behind.csv. */
function familyOf(material: string, town: Town, era: Era): string {
  const coast = town.country === 'CA' && ['marine', 'atlantic'].includes(town.climate.name);
  const family = families[material] ?? '';
  const strapped =
    coast && ['plaster', 'siding'].includes(family) && behind.has(`rainscreen ${era.name}`);
  return strapped ? 'rainscreen' : family;
}

const nothing: Behind = { drainage: '', gap: null };

function behindIt(random: Random, family: string, era: Era): Behind {
  const layers = behind.get(`${family} ${era.name}`) ?? behind.get(`${family} any`);
  return layers ? draw(random, layers) : nothing;
}

/** Plaster on masonry or concrete goes straight on to it. */
const straight: Behind = { drainage: 'none', gap: null };

/** Draws what a wall of that year, kind and place is made of. */
export function assembly(
  random: Random,
  town: Town,
  kind: Kind,
  frame: string,
  installed: number,
): Assembly {
  const era = eraOfYear(installed);
  const material = draw(random, cladding(town.climate.name, era.name, kind.name));
  const family = familyOf(material, town, era);
  const onSolid = frame === 'solid' && ['plaster', 'eifs'].includes(family);
  const { drainage, gap } = onSolid ? straight : behindIt(random, family, era);
  return {
    material,
    sheathing: draw(random, backing.get(`${frame} ${era.name}`) ?? backing.get(`${frame} any`)!),
    installed,
    drainage,
    gapMm: gap ? between(random, ...gap) : 0,
    efficiencyPct: gap && gap[0] >= 2 && chance(random, 35) ? between(random, 88, 97) : 0,
  };
}
