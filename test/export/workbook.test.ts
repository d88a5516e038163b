import { describe, expect, test } from 'vitest';
import { cautions } from '../../analysis/cautions.ts';
import { workbookBytes } from '../../analysis/export/workbook.ts';
import { Refusal } from '../../analysis/read/outcome.ts';
import { entries, sheets } from './readers.ts';
import { hostileTexts, own, ranking, written } from './scene.ts';

const xml = (bytes: Uint8Array, sheet: 1 | 2): string =>
  entries(bytes).get(`xl/worksheets/sheet${sheet}.xml`)!.text;

describe('a workbook', () => {
  test('holds no formula, whatever the texts and headings begin with', async () => {
    const rows = ranking(hostileTexts.map((name) => ({ name })));
    const theirs = own(Object.fromEntries(hostileTexts.map((text) => [text, [...hostileTexts]])));
    const about = JSON.stringify({ edits: hostileTexts });
    const bytes = await written('xlsx', rows, theirs, about);
    for (const sheet of [1, 2] as const) {
      expect(xml(bytes, sheet)).not.toMatch(/<f[\s/>]/);
      expect(xml(bytes, sheet)).not.toMatch(/t="str"/);
    }
  });

  test('keeps a text that begins like a formula a text even when it is edited', async () => {
    const bytes = await written('xlsx', ranking([{ name: '=1+1', material: 'stucco' }]));
    const styles = entries(bytes).get('xl/styles.xml')!.text;
    const formats = styles.match(/<cellXfs.*<\/cellXfs>/)![0].match(/<xf /g);
    expect(formats).toHaveLength(4);
    // ECMA-376 part 1, 18.8.45 (quotePrefix) and 18.8.30 (format 49 is text).
    expect(styles.match(/<cellXfs.*?<\/cellXfs>/)![0].split('<xf ')[2]).toMatch(
      /^numFmtId="49".*quotePrefix="1"/,
    );
    expect(xml(bytes, 1)).toMatch(/s="1" t="inlineStr"><is><t xml:space="preserve">=1\+1</);
    expect(xml(bytes, 1)).toMatch(/s="0" t="inlineStr"><is><t xml:space="preserve">stucco</);
  });

  test('writes numbers as numbers and digits of a text as text', async () => {
    const bytes = await written(
      'xlsx',
      ranking([{ name: '02134', insured_value: -1.5e-7 }]),
      own({ Account: ['-12'] }),
    );
    const [heads, row] = (await sheets(bytes)).ranking!;
    const at = (name: string) => row![heads!.indexOf(name)];
    expect(at('name')).toBe('02134');
    expect(at('insured_value')).toBe(-1.5e-7);
    expect(at('Account')).toBe('-12');
  });

  test('cuts a text longer than a cell, not inside a character, and says so in the cell and in the about sheet', async () => {
    // 32,767 characters a cell: Excel specifications and limits.
    const long = `a${'\u{1F3DA}'.repeat(20_000)}`;
    const bytes = await written('xlsx', ranking([{ name: long }, { name: 'b'.repeat(32_767) }]));
    const { ranking: rows, about } = await sheets(bytes);
    const names = rows!.slice(1).map((row) => row[rows![0]!.indexOf('name')] as string);
    expect(names[0]!.length).toBeLessThanOrEqual(32_767);
    expect(names[0]!.length).toBeGreaterThan(32_500);
    expect(names[0]).toMatch(/^a(\u{1F3DA})+ … \[cut: this text has 40001 characters/u);
    expect(names[1]).toBe('b'.repeat(32_767));
    expect(about!.map(([, says]) => says)).toContain(
      'Cells cut, because a cell holds 32767 characters: 1. Each says so at its end; CSV, JSON and Parquet keep them whole.',
    );
  });

  test('has a second sheet with every caution and all of the sidecar', async () => {
    const sidecar = {
      caution: ['told by the sheet itself'],
      software: 'Rainledger',
      as_of: 2026,
      invented_example: true,
      weather: null,
      inputs: [{ file: '=list.csv', rows_read: 3 }, { file: 'walls.csv' }],
    };
    const { about } = await sheets(
      await written('xlsx', ranking([{}]), undefined, JSON.stringify(sidecar)),
    );
    const says = about!.map(([what, text]) => [what, text ?? null]);
    for (const { short, text } of cautions)
      expect(says).toContainEqual(['caution', `${short} ${text}`]);
    expect(says.slice(cautions.length + 3)).toEqual([
      ['software', 'Rainledger'],
      ['as_of', 2026],
      ['invented_example', 'yes'],
      ['weather', null],
      ['inputs › 1 › file', '=list.csv'],
      ['inputs › 1 › rows_read', 3],
      ['inputs › 2 › file', 'walls.csv'],
    ]);
  });

  test('prints the first caution at the foot of every page', async () => {
    const bytes = await written('xlsx', ranking([{}]));
    expect(xml(bytes, 1)).toContain(`<oddFooter>&amp;C${cautions[0]!.short}`);
  });

  test('stamps every part with the same time, which is none', async () => {
    const parts = [...entries(await written('xlsx', ranking([{}]))).values()];
    // 1 January 1980, noon, as DOS writes it: APPNOTE 4.4.6.
    expect(new Set(parts.map(({ stamp }) => stamp))).toEqual(
      new Set([(((0 << 9) | (1 << 5) | 1) << 16) | (12 << 11)]),
    );
  });

  test('of many rows is inflated by zlib to well-ordered rows', async () => {
    const n = 3_210;
    const rows = ranking(
      Array.from({ length: n }, (_, i) => ({ name: `Row ${(i * 7919) % n}`, index: i / 7 })),
    );
    const text = xml(await written('xlsx', rows), 1);
    const numbered = [...text.matchAll(/<row r="(\d+)">/g)].map(([, row]) => Number(row));
    expect(numbered).toEqual(Array.from({ length: n + 1 }, (_, i) => i + 1));
    expect(text.match(/<c r="[A-Z]+\d+"[^>]*><is>/g)).not.toBeNull();
    expect(text).toMatch(/<c r="AG3211" s="0" t="inlineStr"><is><t xml:space="preserve">SCREENING/);
  });

  test('is refused in words where a sheet cannot hold the ranking', () => {
    // 1,048,576 rows by 16,384 columns: Excel specifications and limits.
    const table = { heads: [{ name: 'rank', kind: 'number' as const }], row: () => [1] };
    expect(() => workbookBytes({ ...table, n: 1_048_576 }, '')).toThrow(Refusal);
    expect(() => workbookBytes({ ...table, n: 1_048_576 }, '')).toThrow(
      'A sheet of a workbook holds 1048575 buildings and 16384 columns; this ranking has 1048576 and 1. Save it as CSV or Parquet.',
    );
  });
});
