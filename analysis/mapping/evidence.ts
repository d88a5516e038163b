import { postalCountry } from '../place/postal.ts';
import { findRegion } from '../place/regions.ts';
import { buildingColumns, wallColumns } from '../read/schema.ts';
import { wordReader } from '../read/vocabulary.ts';
import type { TableName } from './heading-names.ts';
import { isUnique, median, type Profile, share } from './profile.ts';

/** What the values of a column say that it is, whatever its heading. */
export interface Evidence {
  readonly table: TableName;
  readonly column: string;
  /** 0 to 1, judgement. */
  readonly confidence: number;
  readonly why: string;
}

/** Finds one kind of column by its values; null where they do not look like it. */
interface Look {
  readonly table: TableName;
  readonly column: string;
  /** Confidence under a heading that says nothing, judgement. */
  readonly silent: number;
  /** Share of it that is left under a heading with other words: 0 where many other things look alike. */
  readonly spoken: number;
  /** What the values look like, or null. */
  readonly looks: (profile: Profile) => string | null;
  /** 0 to 1: how much of the confidence these values earn. */
  readonly earns?: (profile: Profile) => number;
}

const most = 0.9;

/** Words that many columns share and that tell none. */
const anybodys = new Set(['yes', 'no', 'y', 'n', 'true', 'false', 'none', 'other', '0', '1', 'x']);

const told = ({ distinct }: Profile): [string, number][] =>
  [...distinct].filter(([value]) => !anybodys.has(value.toLowerCase()));

function wordShare(profile: Profile, read: (text: string) => string | null): number {
  const rows = told(profile);
  const all = rows.reduce((sum, [, times]) => sum + times, 0);
  const known = rows.reduce((sum, [value, times]) => sum + (read(value) === null ? 0 : times), 0);
  return all === 0 ? 0 : known / all;
}

const knownWords = (profile: Profile, read: (text: string) => string | null): number =>
  new Set(told(profile).flatMap(([value]) => read(value) ?? [])).size;

const isWhole = (value: number): boolean => Number.isInteger(value);
const wholes = ({ numbers }: Profile): boolean => share(numbers, isWhole) >= most;
const between = ({ numbers }: Profile, least: number, top: number): boolean =>
  share(numbers, (value) => value >= least && value <= top) >= 0.98;

/** Plain degrees with at least three decimals, as coordinates have and heights and amounts do not. */
const fine = ({ values }: Profile): boolean =>
  share(values, (text) => /^[-+−]?\d{1,3}[.,]\d{3,}$/.test(text)) >= 0.7;

const span = ({ numbers }: Profile): string => {
  const known = numbers.filter((x) => !Number.isNaN(x));
  const shown = (x: number) => String(Math.round(x * 10) / 10);
  return `values lie between ${shown(Math.min(...known))} and ${shown(Math.max(...known))}`;
};

/** A run of numbers without a gap counts rows and is no postal code. */
const isRun = (profile: Profile): boolean =>
  isUnique(profile) &&
  Math.max(...profile.numbers) - Math.min(...profile.numbers) < 1.5 * profile.numbers.length;

const isLongitude = (profile: Profile): boolean => fine(profile) && between(profile, -180, -50);
const isLatitude = (profile: Profile): boolean => fine(profile) && between(profile, 15, 75);

const vocabularies: readonly Look[] = (
  [
    ['building', buildingColumns],
    ['wall', wallColumns],
  ] as const
).flatMap(([table, rules]) =>
  rules
    .filter(({ kind }) => kind === 'vocabulary')
    .map(({ name }): Look => {
      const read = wordReader(name);
      return {
        table,
        column: name,
        silent: 0.8,
        spoken: 0.55,
        looks: (profile) =>
          wordShare(profile, read) >= 0.7 ? `most values are words of ${name}` : null,
        earns: (profile) => wordShare(profile, read) * (knownWords(profile, read) > 1 ? 1 : 0.7),
      };
    }),
);

const point = wordReader('azimuth_deg');
const currency = wordReader('currency');

const columnLooks: readonly Look[] = [
  {
    table: 'building',
    column: 'postal_code',
    silent: 0.65,
    spoken: 0,
    looks: (profile) =>
      share(profile.values, (text) => postalCountry(text) !== null) >= most && !isRun(profile)
        ? 'values are written as postal codes are'
        : null,
  },
  {
    table: 'building',
    column: 'region',
    silent: 0.8,
    spoken: 0.65,
    looks: ({ values }) =>
      share(values, (text) => findRegion(text) !== null) >= most
        ? 'values are states or provinces'
        : null,
  },
  {
    table: 'building',
    column: 'climate_zone',
    silent: 0.6,
    spoken: 0,
    looks: ({ values }) =>
      share(values, (text) => /^[0-8][abc]$/i.test(text)) >= most
        ? 'values are written as climate zones are'
        : null,
  },
  {
    table: 'building',
    column: 'address',
    silent: 0.6,
    spoken: 0,
    looks: ({ values }) =>
      share(values, (text) => /^\d+[a-z]?(?:-\d+)?\s+\p{L}[\p{L}\d]*/iu.test(text)) >= 0.8
        ? 'values begin with house numbers'
        : null,
  },
  {
    table: 'building',
    column: 'year_built',
    silent: 0.55,
    spoken: 0,
    looks: (profile) =>
      wholes(profile) && between(profile, 1850, 2030) ? `${span(profile)}, as years do` : null,
    earns: ({ filled }) => 0.8 + 0.2 * filled,
  },
  {
    table: 'building',
    column: 'insured_value',
    silent: 0.6,
    spoken: 0,
    looks: ({ values }) =>
      share(values, (text) => /^(?:US|CA|C)?\$\s*\d/.test(text)) >= most
        ? 'values are amounts of money'
        : null,
  },
  {
    table: 'building',
    column: 'currency',
    silent: 0.6,
    spoken: 0,
    looks: ({ values }) =>
      share(values, (text) => currency(text) !== null) >= most ? 'values are currencies' : null,
  },
  {
    table: 'building',
    column: 'storeys',
    silent: 0.45,
    spoken: 0,
    looks: (profile) =>
      wholes(profile) &&
      between(profile, 1, 110) &&
      median(profile.numbers) <= 30 &&
      profile.distinct.size > 1 &&
      !isUnique(profile)
        ? `${span(profile)}, as storeys do`
        : null,
    earns: ({ filled }) => 0.9 + 0.1 * filled,
  },
  {
    table: 'wall',
    column: 'azimuth_deg',
    silent: 0.8,
    spoken: 0.8,
    looks: (profile) =>
      wordShare(profile, point) >= most && knownWords(profile, point) > 1
        ? 'values are points of the compass'
        : null,
  },
  {
    table: 'wall',
    column: 'azimuth_deg',
    silent: 0.6,
    spoken: 0,
    looks: (profile) =>
      share(profile.numbers, (x) => x % 45 === 0) >= most &&
      between(profile, 0, 360) &&
      profile.distinct.size > 2 &&
      Math.max(...profile.numbers) >= 180
        ? `${span(profile)} in steps, as directions do`
        : null,
  },
  ...vocabularies,
];

function found(look: Look, profile: Profile): Evidence[] {
  const weight = profile.silent ? 1 : look.spoken;
  if (weight === 0) return [];
  const why = look.looks(profile);
  if (why === null) return [];
  const confidence = look.silent * weight * (look.earns?.(profile) ?? 1);
  return [{ table: look.table, column: look.column, confidence, why }];
}

/** Degrees tell only as a pair: a column like latitudes counts beside one like longitudes. */
function coordinates(profile: Profile, paired: boolean): Evidence[] {
  const weight = profile.silent ? 0.85 : 0.7;
  const evidence = (column: string): Evidence[] => [
    { table: 'building', column, confidence: weight, why: `${span(profile)}, as ${column}s do` },
  ];
  if (!paired) return [];
  if (isLongitude(profile)) return evidence('longitude');
  return isLatitude(profile) ? evidence('latitude') : [];
}

/** What the values of each column say, in the order of the profiles. */
export function evidenceOf(profiles: readonly Profile[]): readonly (readonly Evidence[])[] {
  const paired = profiles.some(isLongitude) && profiles.some(isLatitude);
  return profiles.map((profile) =>
    profile.elsewhere || profile.values.length === 0
      ? []
      : [...coordinates(profile, paired), ...columnLooks.flatMap((look) => found(look, profile))],
  );
}
