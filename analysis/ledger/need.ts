import { referenceRows } from '../reference.ts';
import type { LedgerNode } from '../session-types.ts';
import { constantNode, type Row, type Run, rowsOf } from './node.ts';

const answers = ['does not ask', 'cannot tell', 'asks'];
const answered = (asks: Row[string]): string => answers[asks === null ? 1 : Number(asks) * 2]!;

const editionText = `
  SELECT e.code, e.edition, e.year_from, e.year_to, e.answer, e.missing, e.has_row
  FROM need_wall w JOIN edition_answer e USING (need_case), k
  WHERE w.wall = ? AND `;
const when = {
  need_code_now: 'e.now',
  need_code_then:
    'e.year_from <= w.installed_used AND e.year_to >= w.installed_used - k.edition_lag_yr',
} as const;

const ruleText = `
  SELECT a.rule_id, a.code, a.edition_from, a.edition_to, a.asks, a.missing
  FROM need_wall w JOIN rule_answer a USING (need_case) WHERE w.wall = ? ORDER BY a.rule_id`;

/** What a document or practice asks for behind this wall: the editions read and every rule of each. */
export async function needNode(run: Run, wall: Row, column: string): Promise<LedgerNode> {
  const rules = await rowsOf(run.engine, ruleText, [wall.wall!]);
  const value = wall[column] ?? null;
  if (column === 'need_practice') {
    const practice = rules.filter((rule) => rule.code === 'practice').map(ruleNode);
    const counted = constantNode(
      run.settings,
      'rain_threshold_mm',
      'rain above which practice asks',
    );
    return { label: column, value, formula: kleene, inputs: [...practice, counted] };
  }
  const text = `${editionText}${when[column as keyof typeof when]} ORDER BY e.year_from, e.code`;
  const editions = await rowsOf(run.engine, text, [wall.wall!]);
  return {
    label: column,
    value,
    formula: 'asks only where every edition that may govern asks',
    inputs: editions.map((edition) => editionNode(edition, rules)),
    note: 'Our reading of model codes, not of the law that applied. Local codes and a licensed professional decide.',
  };
}

const kleene = 'covers AND substrate AND climate AND scope, in three values';

function editionNode(edition: Row, rules: readonly Row[]): LedgerNode {
  const row = referenceRows('editions').find(
    (candidate) => candidate.code === edition.code && candidate.edition === `${edition.edition}`,
  );
  const own = rules.filter(
    (rule) =>
      rule.code === edition.code &&
      Number(rule.edition_from) <= Number(edition.year_from) &&
      Number(rule.edition_to) >= Number(edition.year_from),
  );
  const value = answers[Number(edition.answer)]!;
  return {
    label: row?.label ?? `${edition.code} ${edition.edition}`,
    value: value === 'cannot tell' ? `${value}: ${edition.missing}` : value,
    formula: 'asks where any of its rules asks (Kleene’s OR)',
    inputs: own.map(ruleNode),
    source: `data/rules/editions.csv: ${row?.source}`,
    ...(row?.note ? { note: row.note } : {}),
  };
}

function ruleNode(rule: Row): LedgerNode {
  const row = referenceRows('rules').find((candidate) => candidate.rule_id === rule.rule_id)!;
  const value = answered(rule.asks ?? null);
  return {
    label: row.rule_id!,
    value: value === 'cannot tell' ? `${value}: ${rule.missing}` : value,
    formula: kleene,
    source: `${row.document} ${row.clause}; ${row.source}`,
    note: `Covers ${words(row.covers!)}; substrate ${words(row.substrate!)}; climate ${words(row.climate!)}. Asks for ${row.asks}.`,
  };
}

const words = (id: string): string => id.replaceAll('_', ' ');
