import { referenceRows } from '../reference.ts';
import type { LedgerNode } from '../session-types.ts';
import { constantNode, type Row, type Run, rowsOf } from './node.ts';

const answers = ['does not ask', 'cannot tell', 'asks'];

/** A three-valued answer in words; the fact that would decide stands behind *cannot tell*. */
function answered(value: Row[string], missing: Row[string], words: readonly string[]): string {
  if (value === null) return `cannot tell: ${missing}`;
  return words[Number(value)]!;
}

const editionText = `
  SELECT a.code, a.edition, a.answer, a.missing, a.rule_id, a.has_row, a.code_irc, a.fact_code
  FROM need_wall w
  JOIN edition_answer a USING (need_case)
  JOIN edition_possible p
    ON p.set_region IS NOT DISTINCT FROM a.set_region AND p.code = a.code AND p.edition = a.edition
  WHERE w.wall = ? AND `;
const when: Readonly<Record<string, string>> = {
  need_code_now: 'p.now',
  need_code_then: 'NOT p.now AND p.year = w.installed_used',
};

const ruleText = `
  SELECT a.* EXCLUDE (need_case)
  FROM need_wall w JOIN rule_answer a USING (need_case) WHERE w.wall = ? ORDER BY a.rule_id`;

/** What a document or practice asks for behind this wall: the editions read and every rule of each. */
export async function needNode(run: Run, wall: Row, column: string): Promise<LedgerNode> {
  const rules = await rowsOf(run.engine, ruleText, [wall.wall!]);
  const value = wall[column] ?? null;
  if (column === 'need_practice') {
    const practice = rules.filter((rule) => rule.code === 'practice').map(ruleNode);
    const counted = constantNode(run.settings, 'rain_threshold_mm', 'rainy above');
    return {
      label: labels[column]!,
      value,
      formula: 'the rule’s own answer',
      inputs: [...practice, counted],
    };
  }
  const text = `${editionText}${when[column]} ORDER BY a.code, a.edition`;
  const editions = await rowsOf(run.engine, text, [wall.wall!]);
  return {
    label: labels[column]!,
    value,
    formula: `asks where every edition asks; does not ask where none may; else cannot tell (${column === 'need_code_then' ? 'then' : 'now'})`,
    inputs: [
      ...editions.map((edition) => editionNode(edition, rules)),
      {
        label: 'installed',
        value: wall.installed_used ?? null,
        source: `${wall.installed_from ?? 'no'} record`,
      },
    ],
    note: 'Our reading of model codes, not of the law that applied. Local codes and a licensed professional decide.',
  };
}

const labels: Readonly<Record<string, string>> = {
  need_code_then: 'code then',
  need_code_now: 'code now',
  need_practice: 'practice',
};

function editionNode(edition: Row, rules: readonly Row[]): LedgerNode {
  const row = referenceRows('editions').find(
    (candidate) => candidate.code === edition.code && candidate.edition === edition.edition,
  )!;
  const year = Number(row.year_from);
  const own = rules.filter(
    (rule) =>
      rule.code === edition.code &&
      Number(rule.edition_from) <= year &&
      Number(rule.edition_to) >= year,
  );
  const answer = Number(edition.answer);
  return {
    label: row.label!,
    value: answer === 1 ? `cannot tell: ${edition.missing}` : answers[answer]!,
    formula: 'asks where any of its rules asks (Kleene’s OR)',
    inputs: own.map(ruleNode),
    source: `data/rules/editions.csv: ${row.source}`,
    ...(row.note ? { note: row.note } : {}),
  };
}

const yesNo = ['no', 'yes'];

/** The conditions of a rule: column of `rule_answer`, column of rules.csv, and the fact behind an unknown. */
const conditions: readonly (readonly [string, string, (rule: Row) => Row[string]])[] = [
  ['covered', 'covers', () => 'material'],
  ['on_substrate', 'substrate', () => 'sheathing'],
  ['in_scope', 'scope', (rule) => rule.fact_scope ?? null],
  ['in_climate', 'climate', (rule) => rule.fact_climate ?? null],
];

function ruleNode(rule: Row): LedgerNode {
  const row = referenceRows('rules').find((candidate) => candidate.rule_id === rule.rule_id)!;
  return {
    label: row.rule_id!,
    value: answered(rule.asks ?? null, rule.missing ?? null, ['does not ask', 'asks']),
    formula: 'asks where all of its conditions hold (Kleene’s AND)',
    inputs: conditions.map(([column, name, fact]) => ({
      label: `${name}: ${row[name]!.replaceAll('_', ' ')}`,
      value: answered(rule[column] ?? null, fact(rule), yesNo),
      source: `data/rules/rules.csv, ${row.rule_id}`,
    })),
    source: `${row.document} ${row.clause}; ${row.source}`,
    note: `Asks for ${row.asks}.`,
  };
}
