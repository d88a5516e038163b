import type { Random } from '../../analysis/sample/random.ts';
import { type Assembly, assembly } from './assembly.ts';
import { bell, between, chance, draw, pick, shuffled } from './random.ts';
import { eras, type Kind, kinds, type Place, type Town, towns, words } from './tables.ts';

/** Buildings of one kind that were put up together. Records are kept alike: `gaps` multiplies the share of blanks. */
export interface Development {
  readonly ordinal: number;
  readonly town: Town;
  readonly kind: Kind;
  readonly place: Place;
  readonly latitude: number;
  readonly longitude: number;
  /** Unit vector of the street, east and north. */
  readonly street: readonly [number, number];
  readonly azimuth: number;
  readonly blocks: number;
  readonly name: string;
  readonly address: string;
  readonly warden: string;
  readonly yearBuilt: number;
  /** 0 where it was never clad anew. */
  readonly reclad: number;
  readonly main: Assembly;
  /** A second cladding on the street front; null where there is one cladding only. */
  readonly front: Assembly | null;
  readonly terrain: string;
  readonly roof: string;
  readonly gaps: number;
}

/** Streets run along these: sides of right-angled triangles, so that no trigonometry is needed, with their bearings. */
const bearings = [
  [0, 1, 0],
  [0.28, 0.96, 16],
  [0.6, 0.8, 37],
  [0.8, 0.6, 53],
  [1, 0, 90],
  [0.96, -0.28, 106],
  [0.8, -0.6, 127],
  [0.6, -0.8, 143],
] as const;

/** cos of a latitude by its series: the same digits in every engine. */
function cosine(degrees: number): number {
  const x2 = (degrees * 0.017453292519943295) ** 2;
  return 1 - x2 / 2 + (x2 * x2) / 24 - (x2 * x2 * x2) / 720 + (x2 * x2 * x2 * x2) / 40320;
}

const metresPerDegree = 111_195;

/** A point so many metres east and north of another, degrees to five decimals. */
function moved(from: { latitude: number; longitude: number }, east: number, north: number) {
  const five = (x: number) => Math.round(x * 1e5) / 1e5;
  return {
    latitude: five(from.latitude + north / metresPerDegree),
    longitude: five(from.longitude + east / (metresPerDegree * cosine(from.latitude))),
  };
}

/** The second cladding is a decade's fashion: another draw; kept only where it differs. */
function frontOf(
  random: Random,
  town: Town,
  kind: Kind,
  frame: string,
  main: Assembly,
): Assembly | null {
  if (!chance(random, 32)) return null;
  const other = assembly(random, town, kind, frame, main.installed);
  return other.material === main.material ? null : { ...other, sheathing: main.sheathing };
}

function recladYear(random: Random, yearBuilt: number, leakPct: number): number {
  const due = yearBuilt + 20;
  return due < 2024 && chance(random, 8 + leakPct) ? between(random, due, 2024) : 0;
}

const wardenOf = (random: Random): string =>
  `${pick(random, words('given'))} ${pick(random, words('family'))}`;

/** A Canadian place has half a postal code; the other half is invented. */
function fullCode(random: Random, place: Place): string {
  if (place.postalCode.length > 3) return place.postalCode;
  return `${place.postalCode} ${between(random, 1, 9)}${pick(random, [...'ABCEGHJKLMNP'])}${between(random, 1, 9)}`;
}

/** One development of a town, with everything its buildings share. */
function development(random: Random, ordinal: number, town: Town): Development {
  const kind = draw(random, kinds);
  const era = draw(random, eras);
  const place = pick(random, town.places);
  const yearBuilt = between(random, era.from, era.to);
  const [x, y, azimuth] = pick(random, bearings);
  const solid = kind.storeys[1] < 8 && chance(random, town.climate.solidPct);
  const frame = solid || (kind.name === 'tower' && chance(random, 45)) ? 'solid' : kind.frame;
  const reclad = recladYear(random, yearBuilt, town.climate.leakPct);
  const main = assembly(random, town, kind, frame, reclad || yearBuilt);
  return {
    ordinal,
    town,
    kind,
    place: { ...place, postalCode: fullCode(random, place) },
    ...moved(place, 700 * bell(random), 700 * bell(random)),
    street: [x, y],
    azimuth,
    blocks: between(random, ...kind.blocks),
    name: `${pick(random, words('first'))} ${pick(random, words('last'))}`,
    address: pick(random, words('street')),
    warden: wardenOf(random),
    yearBuilt,
    reclad,
    main,
    front: frontOf(random, town, kind, frame, main),
    terrain: draw(random, town.climate.terrain),
    roof: chance(random, Math.max(0, kind.steepPct - town.climate.lowRoofPct / 2))
      ? 'steep'
      : 'low',
    gaps: pick(random, [0.3, 0.3, 0.6, 1, 1, 1, 1.4, 1.9, 2.2]),
  };
}

/** One building of a development, as it really is. */
export interface Building {
  readonly development: Development;
  /** 0 for the first of its development. */
  readonly block: number;
  readonly latitude: number;
  readonly longitude: number;
  readonly storeys: number;
  readonly heightM: number;
  readonly frontM: number;
  readonly depthM: number;
  readonly wallArea: number;
  readonly terrain: string;
}

const one = (x: number): number => Math.round(x * 10) / 10;

/** Buildings stand in two rows along the street. */
function building(random: Random, d: Development, block: number): Building {
  const { kind, street } = d;
  const along = (Math.floor(block / 2) + 0.5 - Math.ceil(d.blocks / 2) / 2) * kind.apartM;
  const across = (block % 2 === 0 ? -0.5 : 0.5) * (kind.depthM + 16) + bell(random);
  const storeys = between(random, ...kind.storeys);
  const heightM = one(storeys * kind.storeyM + (d.roof === 'low' ? 0.9 : 0.4));
  const frontM = one(kind.frontM * (0.85 + unit30(random)));
  const depthM = one(kind.depthM * (0.85 + unit30(random)));
  return {
    development: d,
    block,
    ...moved(d, along * street[0] + across * street[1], along * street[1] - across * street[0]),
    storeys,
    heightM,
    frontM,
    depthM,
    wallArea: Math.round(2 * (frontM + depthM) * heightM * 0.82),
    terrain: chance(random, 88) ? d.terrain : draw(random, d.town.climate.terrain),
  };
}

const unit30 = (random: Random): number => between(random, 0, 30) / 100;

/** So many buildings, development by development, every town once before any again; the last one may be cut short. */
export function buildings(random: Random, n: number): Building[] {
  const list: Building[] = [];
  const eachOnce = shuffled(random, towns.values);
  for (let ordinal = 1; list.length < n; ordinal++) {
    const d = development(random, ordinal, eachOnce[ordinal - 1] ?? draw(random, towns));
    for (let block = 0; block < d.blocks && list.length < n; block++) {
      list.push(building(random, d, block));
    }
  }
  return list;
}
