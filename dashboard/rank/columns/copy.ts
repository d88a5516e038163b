import { reasonIn } from '../../parts/reason.ts';
import type { PageState } from '../../state/page-state.ts';
import type { RankRow } from '../../state/rows.ts';
import type { Ranking } from '../ranking.ts';
import { chosenColumns } from './plain-columns.ts';

/** Rows that are copied at once, at most: what a clipboard and a spreadsheet take without waiting. */
export const mostCopied = 1_000;

type Shown = Pick<PageState, 'columns' | 'pinned' | 'units' | 'selected'>;

/** What stands in a cell of a spreadsheet: no tab, no line break, and no formula that would run. */
function cellText(value: unknown): string {
  const text = String(value ?? '').replaceAll(/[\t\r\n]+/g, ' ');
  return typeof value === 'string' && /^[=+\-@]/.test(text) ? `'${text}` : text;
}

/** Rows as tab-separated text with names and units of the contract, the caution last. */
export function copiedText(rows: readonly RankRow[], shown: Shown): string {
  const { pinned, free } = chosenColumns(shown.columns, shown.pinned);
  const names = [...pinned, ...free].map(({ name }) => name);
  if (!names.includes('caution')) names.push('caution');
  const cells = (row: RankRow) =>
    names.map((name) => cellText(name === 'reason' ? reasonIn(row, shown.units) : row[name]));
  return [names, ...rows.map(cells)].map((line) => line.join('\t')).join('\n');
}

/** Copies the selected building, unless the reader has marked some text. */
export function copySelected(event: ClipboardEvent, ranking: Ranking, shown: Shown): void {
  const row = shown.selected === null ? undefined : ranking.row(shown.selected);
  if (!row || String(getSelection() ?? '') !== '') return;
  event.preventDefault();
  event.clipboardData?.setData('text/plain', copiedText([row], shown));
}
