import type { RainReport } from '../session-types.ts';

const heads = [
  'estimate',
  'left out',
  'period',
  'n',
  'RMSE in',
  'bias in',
  'r',
  '20-inch agreement',
];

/** How the rain of a run was made and how well stations left out were foretold, as lines of text. */
export function rainLines({ source, period, sentence, parameters, checks }: RainReport): string[] {
  const rows = checks.map((row) => [
    row.estimate,
    row.leftOut,
    row.shifted ? 'shifted' : 'as recorded',
    `${row.n}`,
    row.rmseIn.toFixed(2),
    row.biasIn.toFixed(2),
    row.correlation.toFixed(2),
    row.agreement.toFixed(2),
  ]);
  const named = Object.entries(parameters).map(
    ([name, value]) => `${name} ${Number(value.toPrecision(4))}`,
  );
  return [
    `Rain: ${source}; ${period}.`,
    sentence,
    ...(named.length > 0 ? [named.join(', ')] : []),
    ...(rows.length > 0 ? aligned([heads, ...rows]) : []),
  ];
}

function aligned(rows: readonly (readonly string[])[]): string[] {
  const widths = rows[0]!.map((_, c) => Math.max(...rows.map((row) => row[c]!.length)));
  return rows.map((row) =>
    `  ${row.map((text, c) => text.padEnd(widths[c]!)).join('  ')}`.trimEnd(),
  );
}
