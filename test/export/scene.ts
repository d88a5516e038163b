import type { Column, Columns } from '../../analysis/columns.ts';
import { rankingBytes } from '../../analysis/export/write.ts';
import type { ExportFormat } from '../../analysis/session-types.ts';

const numeric = ['b', 'rank', 'latitude', 'longitude', 'rain_mm', 'index', 'tier', 'insured_value'];
const textual = ['building_id', 'name', 'rain_flag', 'material'];

type Row = Readonly<Record<string, number | string | null>>;

/** Rows of the table `ranking` with the columns that these tests look at; what a row leaves out is no record. */
export function ranking(rows: readonly Row[]): Columns {
  const given = rows.map((row, b): Row => ({ b, rank: b + 1, building_id: `B${b + 1}`, ...row }));
  const number = (name: string): Column =>
    Float64Array.from(given, (row) => Number(row[name] ?? Number.NaN));
  const text = (name: string): Column => given.map((row) => (row[name] ?? null) as string | null);
  const columns = [
    ...numeric.map((name) => [name, number(name)] as const),
    ...textual.map((name) => [name, text(name)] as const),
  ];
  return { n: rows.length, cols: Object.fromEntries(columns) };
}

export const noColumns: Columns = { n: 0, cols: {} };

/** Columns of the user's own, as texts. */
export const own = (cols: Readonly<Record<string, (string | null)[]>>): Columns => ({
  n: Object.values(cols)[0]?.length ?? 0,
  cols,
});

export const written = (
  format: ExportFormat,
  rows: Columns,
  extra: Columns = noColumns,
  about?: string,
) => rankingBytes(rows, extra, format, 'metric', about);

/** Texts that files, readers and spreadsheets trip over. */
export const hostileTexts: readonly string[] = [
  '<b onclick="x()">&amp; &lt;/t&gt; ]]></b>',
  '=1+1',
  '+1 206 555 0100',
  '-2+3',
  '@SUM(A1)',
  '\t=1',
  '\r=1',
  '  =1',
  '＝1',
  '-12.5',
  '-',
  "'=1",
  'He said "no", twice',
  'two\nlines',
  'two\r\nlines',
  ' blanks around ',
  '\u{1F3DA}\u{FE0F} tower',
  'half \uD83C of a pair',
  'other half \uDFDA',
  '_x0041_ and _x005F_',
  'bell \u0007, form feed \f, end \uFFFE',
  'constructor',
  '__proto__',
  '02134',
  'NULL',
  'null',
  'NaN',
  'É, 東京, العربية',
  `${'long '.repeat(7_999)}tail!`,
];
