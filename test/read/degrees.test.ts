import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { axisOf, negatedText, readDegrees } from '../../analysis/read/degrees.ts';

const read = (text: string) => readDegrees(text, false);

describe('degrees', () => {
  test.each([
    ['47.6', 47.6],
    ['-122.3', -122.3],
    ['−122.3', -122.3],
    ['47.6°', 47.6],
    ['47.6 N', 47.6],
    ['N 47.6', 47.6],
    ['47.6n', 47.6],
    ['122.3 W', -122.3],
    ['122.3° W', -122.3],
    ['W122.3', -122.3],
    ['-122.3 W', -122.3],
    ['33.9 S', -33.9],
    ['18.4E', 18.4],
    ["47°36'", 47.6],
    ["47°36' N", 47.6],
    ['47° 36.6', 47.61],
    ['122°18′W', -122.3],
    ['122º18’0” W', -122.3],
    ["-122°18'", -122.3],
    ["-0°30'", -0.5],
    ['47 36 N', 47.6],
    ['47-36-00N', 47.6],
    ['N 47:36:00', 47.6],
    [`38°53'23.3"N`, 38.889806],
    ["77°00'32.5''W", -77.009028],
  ])('%j is %d', (text, degrees) => expect(read(text)).toBeCloseTo(degrees, 6));

  test.each([
    'north',
    'N',
    'N47.6N',
    '47.6 N W',
    '-47.6 N',
    '+122.3 W',
    '122.3 O',
    "47°60'",
    `47°36'60"`,
    "47.5°36'",
    `47°36.5'29"`,
    '47 36',
    '47 36 29',
    '47.6, -122.3',
    `47°36'29"N 122°20'W`,
    'N W',
  ])('%j is not guessed', (text) => expect(read(text)).toBeNaN());

  test('a comma stands before decimals in semicolon files alone', () => {
    expect(readDegrees('47,6 N', true)).toBe(47.6);
    expect(readDegrees("122°18,5' W", true)).toBeCloseTo(-122.308333, 6);
    expect(read('47,6 N')).toBeNaN();
  });

  test('a page of text is no angle, found out without searching it', () => {
    const page = `N 47${' '.repeat(900_000)}x`;
    expect(read(page)).toBeNaN();
    expect(axisOf(page)).toBeNull();
  });

  // The arithmetic of sexagesimal notation itself: 1° = 60' = 3600".
  test('degrees, minutes and seconds read as the seconds of arc they amount to (property)', () => {
    const arc = fc.integer({ min: 0, max: 180 * 3600 - 1 });
    fc.assert(
      fc.property(arc, fc.constantFrom('N', 'S', 'E', 'W'), (seconds, letter) => {
        const parts = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
        const sign = 'SW'.includes(letter) ? -1 : 1;
        const [d, m, s] = parts;
        for (const text of [`${d}°${m}'${s}"${letter}`, `${letter} ${parts.join(' ')}`]) {
          expect(Math.round(read(text) * 3600)).toBe(sign * seconds + 0);
        }
      }),
      { seed: 5, numRuns: 500 },
    );
  });
});

describe('the letter of a hemisphere', () => {
  test.each([
    ['47.6 N', 'latitude'],
    ['S33.9', 'latitude'],
    ['122.3w', 'longitude'],
    ["18°24' E", 'longitude'],
    ['47.6', null],
    ['1e3', null],
    ['Seattle W', null],
  ])('%j names the axis %s', (text, axis) => expect(axisOf(text)).toBe(axis));
});

describe('the other hemisphere', () => {
  test.each([
    ['122.3', '-122.3'],
    ['-122.3', '122.3'],
    ['−122.3', '122.3'],
    ['+122.3', '-122.3'],
    ['122.3 E', '122.3 W'],
    ['W 122.3', 'E 122.3'],
    ['-122.3 W', '122.3 E'],
    ["122°18' e", "122°18' W"],
    ['122-18-00E', '122-18-00W'],
  ])('of %j is %j', (text, other) => expect(negatedText(text)).toBe(other));

  test('reads as the same angle with the other sign (property)', () => {
    const angle = fc.integer({ min: -1_800_000, max: 1_800_000 }).map((n) => n / 1e4);
    const form = fc.constantFrom(
      (x: number) => `${x}`,
      (x: number) => `${x}°`,
      (x: number) => `${Math.abs(x)} ${x < 0 ? 'W' : 'E'}`,
      (x: number) => `${x < 0 ? '-' : ''}${Math.floor(Math.abs(x))}°30'`,
    );
    fc.assert(
      fc.property(angle, form, (x, write) => {
        const text = write(x);
        expect(read(negatedText(text)) + 0).toBe(0 - read(text));
      }),
      { seed: 6, numRuns: 500 },
    );
  });
});
