import { cautionTexts } from '../cautions.ts';
import { softwareName } from '../version.ts';
import type { OutValue } from './out-table.ts';
import { cellLimit } from './sheet-xml.ts';

/**
 * Rows of the second sheet of a workbook: what to know before the ranking is used, and what made it. `about` is the text
 * of the sidecar, `cut` the number of texts that were longer than a cell.
 */
export function aboutRows(about: string, cut: number): OutValue[][] {
  const { caution: _, ...told }: Record<string, unknown> = about === '' ? {} : JSON.parse(about);
  return [
    ['what', 'says'],
    ...cautionTexts.map((text): OutValue[] => ['caution', text]),
    ['this workbook', 'Texts are texts, whatever they begin with; no cell holds a formula.'],
    ['this workbook', cutSentence(cut)],
    ...(about === '' ? [['software', softwareName]] : leaves('', told)),
  ];
}

const cutSentence = (cut: number): string =>
  cut === 0
    ? 'No text was cut.'
    : `Cells cut, because a cell holds ${cellLimit} characters: ${cut}. Each says so at its end; CSV, JSON and Parquet keep them whole.`;

/** Every value of a JSON document with the way to it: `inputs › 1 › file`. */
function leaves(path: string, value: unknown): OutValue[][] {
  if (typeof value === 'object' && value !== null) {
    const from = Array.isArray(value) ? 1 : 0;
    return Object.entries(value).flatMap(([key, one]) => {
      const step = from ? `${Number(key) + from}` : key;
      return leaves(path === '' ? step : `${path} › ${step}`, one);
    });
  }
  if (typeof value === 'boolean') return [[path, value ? 'yes' : 'no']];
  return [[path, typeof value === 'number' || typeof value === 'string' ? value : null]];
}
