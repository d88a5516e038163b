import { fold } from '../place/fold.ts';
import { wordReader } from '../read/vocabulary.ts';
import type { WallGroup } from './column-map.ts';
import { nameLines, wallFillers } from './heading-names.ts';
import { wordsIn } from './heading-words.ts';

/** A heading that speaks of one of several walls: which, and what is left of its words. */
export interface GroupReading {
  readonly group: WallGroup;
  /** Orders the groups of a sheet: directions clockwise, then numbers, ranks, materials. */
  readonly order: number;
  readonly kind: 'direction' | 'number' | 'rank' | 'material';
  /** What the heading says of that wall; empty where it only names it. */
  readonly rest: readonly string[];
  /** Share of the confidence that this reading of the group deserves. */
  readonly sure: number;
}

const compass: readonly (readonly [string, string])[] = [
  ['N', 'north'],
  ['NNE', 'north-northeast'],
  ['NE', 'northeast'],
  ['ENE', 'east-northeast'],
  ['E', 'east'],
  ['ESE', 'east-southeast'],
  ['SE', 'southeast'],
  ['SSE', 'south-southeast'],
  ['S', 'south'],
  ['SSW', 'south-southwest'],
  ['SW', 'southwest'],
  ['WSW', 'west-southwest'],
  ['W', 'west'],
  ['WNW', 'west-northwest'],
  ['NW', 'northwest'],
  ['NNW', 'north-northwest'],
];

const degreesOf = wordReader('azimuth_deg');

/** A name at the head or the foot of the heading. */
interface Affix {
  readonly head: readonly string[];
  readonly rest: readonly string[];
}

const affixes = (words: readonly string[], length: number): readonly Affix[] =>
  words.length < length
    ? []
    : [
        { head: words.slice(0, length), rest: words.slice(length) },
        { head: words.slice(words.length - length), rest: words.slice(0, words.length - length) },
      ];

/** `elevation` or `side` beside the name of a wall says nothing more; `facing` may. */
const bare = (rest: readonly string[]): readonly string[] =>
  rest.filter((word) => word !== 'elevation' && word !== 'side' && word !== 'number');

/** Whether a heading only names its wall: `North`, `Wall 1`, `South facade`. */
export const onlyNames = ({ rest }: GroupReading): boolean =>
  rest.every((word) => wallFillers.has(word));

function directions(words: readonly string[]): GroupReading[] {
  return [3, 2, 1].flatMap((length) =>
    affixes(words, length).flatMap(({ head, rest }): GroupReading[] => {
      const degrees = degreesOf(head.join(' '));
      const order = degrees === null ? -1 : Number(degrees) / 22.5;
      const named = compass[order];
      if (!named) return [];
      const group = { wall: named[1], says: { azimuth_deg: named[0] } };
      return [{ group, order, kind: 'direction', rest: bare(rest), sure: 0.97 }];
    }),
  );
}

function numbers(words: readonly string[]): GroupReading[] {
  return words.flatMap((word, i): GroupReading[] => {
    if (!/^[1-9]\d?$/.test(word)) return [];
    const rest = bare([...words.slice(0, i), ...words.slice(i + 1)]);
    const group = { wall: word, says: {} };
    return [{ group, order: 100 + Number(word), kind: 'number', rest, sure: 0.97 }];
  });
}

const lines = nameLines.filter(({ table }) => table === 'group');

const ranks = lines.filter(({ column }) => column === 'rank').flatMap(({ names }) => names);
const materials = lines
  .filter(({ column }) => column !== 'rank')
  .flatMap(({ column, names, confidence }) =>
    names.map((name) => ({
      name,
      material: column,
      words: wordsIn(name),
      sure: 0.97 * confidence,
    })),
  )
  .sort((a, b) => b.words.length - a.words.length);

function ranked(words: readonly string[]): GroupReading[] {
  return affixes(words, 1).flatMap(({ head, rest }): GroupReading[] => {
    const place = ranks.indexOf(head[0]!);
    if (place < 0) return [];
    const group = { wall: head[0]!, says: {} };
    return [{ group, order: 200 + place, kind: 'rank', rest: bare(rest), sure: 0.97 }];
  });
}

function madeOf(words: readonly string[]): GroupReading[] {
  return materials.flatMap(({ name, material, words: spelt, sure }, place) =>
    affixes(words, spelt.length).flatMap(({ head, rest }): GroupReading[] => {
      if (head.join(' ') !== spelt.join(' ') || rest.length === 0) return [];
      const group = { wall: fold(name), says: { material } };
      return [{ group, order: 300 + place, kind: 'material', rest: bare(rest), sure }];
    }),
  );
}

/** Every way in which a heading may speak of one of several walls, the longest name of each kind first. */
export const groupReadings = (words: readonly string[]): readonly GroupReading[] => [
  ...directions(words),
  ...numbers(words),
  ...ranked(words),
  ...madeOf(words),
];
