import { csvParse } from 'd3';
import { describe, expect, test } from 'vitest';
import { fold } from '../../analysis/place/fold.ts';
import { buildingColumns, wallColumns } from '../../analysis/read/schema.ts';
import { wordReader, wordsOf } from '../../analysis/read/vocabulary.ts';
import drainageCsv from '../../data/drainage.csv?raw';
import materialsCsv from '../../data/materials.csv?raw';
import sourcesCsv from '../../data/record_source.csv?raw';
import sheathingCsv from '../../data/sheathing.csv?raw';
import vocabularyCsv from '../../data/vocabulary.csv?raw';

const vocabulary = csvParse(vocabularyCsv);
const columns = [...new Set(vocabulary.map(({ column }) => column!))];

describe('the vocabulary', () => {
  test('every column of words has one, and no spelling means two things', () => {
    const needed = [...buildingColumns, ...wallColumns].filter(({ kind }) => kind === 'vocabulary');
    expect(columns).toEqual(expect.arrayContaining(needed.map(({ name }) => name)));
    for (const column of columns) expect(() => wordReader(column)).not.toThrow();
  });

  test('a word of the contract reads as itself', () => {
    for (const column of columns) {
      const read = wordReader(column);
      expect(wordsOf(column).map(read)).toEqual(wordsOf(column));
    }
  });

  test('every line says where it comes from', () => {
    expect(vocabulary.filter(({ source }) => !source?.trim())).toEqual([]);
  });

  test.each([
    ['material', csvParse(materialsCsv).map(({ material }) => material)],
    [
      'drainage',
      csvParse(drainageCsv)
        .filter(({ recorded }) => recorded === 'yes')
        .map(({ drainage }) => drainage),
    ],
    ['sheathing', csvParse(sheathingCsv).map(({ sheathing }) => sheathing)],
    ['source', csvParse(sourcesCsv).map(({ source }) => source)],
  ])('the words of %s are those that the method knows', (column, known) => {
    expect([...wordsOf(column)].sort()).toEqual(known.sort());
  });

  test('words are compared without case, accents, full stops, hyphens and brackets', () => {
    expect(fold('  Crépi_à  l’ancienne (E.I.F.S.)/low–slope ')).toBe(
      'crepi a lancienne eifs low slope',
    );
    expect(fold('22.5')).toBe('22.5');
  });
});
