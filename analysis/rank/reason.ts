import { type ReferenceRow, referenceRows } from '../reference.ts';
import { gapWords, type UnitSystem, wettingWords } from '../units.ts';

/** One row of the table `ranking`. */
export type RankingRow = Readonly<Record<string, number | string | null>>;

const labels = (id: string, key: string): ReadonlyMap<string, string> =>
  new Map(referenceRows(id).map((row) => [row[key]!, row.label!]));
const layerLabel = labels('drainage', 'drainage');
const sheathingLabel = labels('sheathing', 'sheathing');
const materialLabel = labels('materials', 'material');
const layers = new Map<string, ReferenceRow>(
  referenceRows('drainage').map((row) => [row.drainage!, row]),
);

/** Facts that a record may lack, with the column of `ranking` that is null where it does. */
const facts = referenceRows('facts');
const rankingColumn: Readonly<Record<string, string>> = {
  drainage: 'drainage_used',
  installed: 'installed_used',
  height_m: 'height_used_m',
  gap_mm: 'gap_used_mm',
};

/**
 * Names of the input columns whose blank enters this row's index, the most telling first: by the share of the index's
 * variance that knowing it would take away.
 */
export function unknownFacts(row: RankingRow): string[] {
  const share = (fact: string): number => Number(row[`share_${fact}`] ?? 0);
  return facts
    .map((fact) => fact.fact!)
    .filter((fact) => isUnknown(row, fact))
    .sort((a, b) => share(b) - share(a));
}

function isUnknown(row: RankingRow, fact: string): boolean {
  if (row.index === null) return false;
  if (row[rankingColumn[fact] ?? fact] !== null) return false;
  // Without a weather record every direction is alike, and its share is 0.
  if (fact === 'azimuth_deg') return Number(row.share_azimuth_deg ?? 0) > 0;
  // The depth of a gap matters only behind a layer that can have one.
  if (fact === 'gap_mm') return layers.get(`${row.drainage_used}`)?.sheets === '';
  return !(fact === 'drainage' && row.gap_used_mm !== null);
}

/**
 * One plain sentence: what the wall takes, what is behind it against what is asked, and the most telling unknown.
 * A reported leak comes first; a building without an index says why.
 */
export function reason(row: RankingRow, units: UnitSystem): string {
  const leak = row.leak ? 'A leak is reported and no repair is on record. ' : '';
  if (row.index === null) return leak + notScored(row);
  const takes = `${where(row)}akes about ${wettingWords(row.wetting_l_m2 as number, units)} a year`;
  const rest = unknownFacts(row).find((fact) => fact !== 'drainage' && fact !== 'sheathing');
  const unknown = rest ? `; ${facts.find((fact) => fact.fact === rest)!.label} not on record` : '';
  return `${leak}${takes}; ${behind(row, units)}${asked(row, units)}, ${over(row)}${unknown}.`;
}

function where(row: RankingRow): string {
  if (row.kind === 'assumed') return 'No wall is on record: with every fact open it t';
  if (row.kind === 'remainder') return 'The part of its walls that no record covers t';
  return 'T';
}

function behind(row: RankingRow, units: UnitSystem): string {
  const gap = row.gap_used_mm === null ? '' : ` of ${gapWords(row.gap_used_mm as number, units)}`;
  if (row.drainage_used === null) return gap ? `a gap${gap}` : 'drainage not on record';
  return `${layerLabel.get(`${row.drainage_used}`) ?? row.drainage_used}${gap}`;
}

function asked(row: RankingRow, units: UnitSystem): string {
  if (row.code_gap_mm !== null)
    return ` where ${gapWords(row.code_gap_mm as number, units)} is asked now`;
  if (`${row.need_code_now}`.startsWith('asks')) {
    return row.code_layers === null
      ? ' where drainage is asked now'
      : ' where two layers are asked now';
  }
  if (`${row.need_practice}`.startsWith('asks')) return ' where practice asks for a drainage layer';
  return '';
}

const over = (row: RankingRow): string =>
  row.sheathing === null
    ? 'sheathing not on record'
    : `over ${sheathingLabel.get(`${row.sheathing}`) ?? row.sheathing}`;

function notScored(row: RankingRow): string {
  if (row.rain_mm === null) return `Not scored: ${row.rain_flag ?? 'no rain'}.`;
  const material = materialLabel.get(`${row.material}`) ?? `${row.material}`;
  return `Not scored: its walls on record are ${material}, which this method lists but does not rank.`;
}
