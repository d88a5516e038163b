import { csvTable } from '../../analysis/csv-table.ts';
import rulesCsv from '../../data/rules/rules.csv?raw';
import { noRecord, type Value } from '../parts/format.ts';
import { plainWord } from '../parts/words.ts';

/** `asks: <rule>`, `does not ask` or `cannot tell: <fact>` without its detail, led by who asks. */
export function needWords(need: Value, who: string): string {
  const [verdict] = String(need ?? '').split(': ', 1);
  return `${who}: ${verdict || noRecord}`;
}

/** The same with the documents and clauses that ask, or with the missing fact. */
export function needInFull(need: Value): string {
  const text = String(need ?? '');
  if (text === '') return noRecord;
  const at = text.indexOf(': ');
  if (at < 0) return text;
  const verdict = text.slice(0, at);
  const detail = verdict === 'asks' ? clausesOf(need) : plainWord(text.slice(at + 2));
  return detail ? `${verdict}: ${detail}` : verdict;
}

/** Ids of the rules that ask; where the use of a building is not on record there may be two. */
const ruleIds = (need: Value): readonly string[] => {
  const text = String(need ?? '');
  return text.startsWith('asks: ') ? text.slice('asks: '.length).split(' or ') : [];
};

const rules = csvTable(rulesCsv);
const ruleOf = (id: string) => rules.find((row) => row.rule_id === id);

const clausesOf = (need: Value): string => ruleIds(need).map(clauseOf).filter(Boolean).join(' or ');

/** *IBC 2021, § 2510.6.2*; '' for practice, which has no clause; an unknown id stands as it is. */
function clauseOf(id: string): string {
  const rule = ruleOf(id);
  if (!rule) return id;
  if (rule.code === 'practice') return '';
  const clause = rule.clause?.split(';')[0]?.replace('§ ', '§\u00a0');
  return `${rule.document}, ${clause}`;
}

/** What the rules ask for, in words: *two layers of Grade D paper*; '' where none asks. */
export const askedWords = (need: Value): string =>
  [...new Set(ruleIds(need).map((id) => ruleOf(id)?.asks))].filter(Boolean).join('; or ');
