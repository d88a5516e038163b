import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { csvRows } from './readers.ts';
import { own, ranking, written } from './scene.ts';

/**
 * What a spreadsheet takes for a formula when it opens a CSV: common practice, no source, but for the list of first
 * characters, which is from memory of OWASP's page on CSV injection. Written as a walk over characters, not as the
 * program does it.
 */
function takenForFormula(cell: string): boolean {
  let at = 0;
  while (at < cell.length && cell[at]!.trim() === '') {
    if (cell[at] === '\t' || cell[at] === '\r') return true;
    at += 1;
  }
  const rest = cell.slice(at);
  const isNumber = rest.startsWith('-') && rest.trim() === cell && Number.isFinite(Number(cell));
  return ['=', '+', '-', '@'].some((mark) => rest.startsWith(mark)) && !isNumber;
}

const cells = fc.oneof(
  fc.string({
    unit: fc.constantFrom(...`=+-@\t\r\n ,;"'|.0123eEAx()!é`),
    minLength: 1,
    maxLength: 12,
  }),
  fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
  fc.string({ minLength: 1 }),
);
// A heading or cell of nothing but blanks means none; NUL is in no text a user can give.
const texts = cells.filter((text) => text.trim() !== '' && !text.includes('\0'));

describe('a CSV opened in a spreadsheet', () => {
  test('has no cell that is taken for a formula, and every text is there behind at most an apostrophe', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(texts, { minLength: 1, maxLength: 40 }),
        texts,
        async (all, heading) => {
          const bytes = await written(
            'csv',
            ranking(all.map((name) => ({ name }))),
            own({ [heading]: all.toReversed() }),
          );
          const found = await csvRows(bytes);
          expect(found).toHaveLength(all.length);
          const heads = Object.keys(found[0]!);
          expect(heads.filter(takenForFormula)).toEqual([]);
          found.forEach((row, i) => {
            for (const [column, wanted] of [
              ['name', all[i]!],
              [heads.at(-1)!, all.at(-1 - i)!],
            ]) {
              const cell = row[column!] as string;
              expect(takenForFormula(cell), JSON.stringify(cell)).toBe(false);
              expect([wanted, `'${wanted}`]).toContain(cell);
              if (/^[\p{L}\d]/u.test(wanted!)) expect(cell).toBe(wanted);
            }
          });
        },
      ),
      { seed: 20260131, numRuns: 60 },
    );
  });

  test('keeps negative numbers as numbers, in our columns and in the user’s', async () => {
    const bytes = await written(
      'csv',
      ranking([{ longitude: -122.33, insured_value: -5 }]),
      own({ Balance: ['-12.5'], Change: ['-1.5e3'], Sum: ['-1+2'] }),
    );
    const line = new TextDecoder().decode(bytes).split('\r\n')[1]!;
    expect(line).toContain(',-122.33,');
    expect(line).toContain(',-5,');
    expect(line).toMatch(/,-12\.5,-1\.5e3,'-1\+2$/);
  });

  test('is UTF-8 without a byte order mark, its lines ended by CR LF (RFC 4180)', async () => {
    const bytes = await written('csv', ranking([{ name: 'Žižkov 🏚' }]));
    const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    expect(text).toMatch(/^rank,/);
    expect(text).toMatch(/Žižkov 🏚.*\r\n$/);
    expect(text.split('\r\n')).toHaveLength(3);
  });
});
