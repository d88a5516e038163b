import { referenceRows } from '../../analysis/reference.ts';
import { noRecord, type Value } from '../parts/format.ts';
import { plainWord } from '../parts/words.ts';

/** `asks: <rule>`, `does not ask` or `cannot tell: <fact>` without its detail, led by who asks. */
export function needWords(need: Value, who: string): string {
  const [verdict] = String(need ?? '').split(': ', 1);
  return `${who}: ${verdict || noRecord}`;
}

/** The same with the document and clause that ask, or with the missing fact. */
export function needInFull(need: Value): string {
  const text = String(need ?? '');
  if (text === '') return noRecord;
  const at = text.indexOf(': ');
  if (at < 0) return text;
  const [verdict, detail] = [text.slice(0, at), text.slice(at + 2)];
  return `${verdict}: ${verdict === 'asks' ? clauseOf(detail) : plainWord(detail)}`;
}

const ruleOf = (id: string) => referenceRows('rules').find((row) => row.rule_id === id);

/** *IBC 2021, § 2510.6.2*; an id without a row in the table of rules stands as it is. */
function clauseOf(id: string): string {
  const rule = ruleOf(id);
  if (!rule) return id;
  const clause = rule.clause?.split(';')[0]?.replace('§ ', '§\u00a0');
  return clause === 'none' ? `${rule.document}` : `${rule.document}, ${clause}`;
}

/** What the rule asks for, in words: *two layers of Grade D paper*; '' where no rule asks. */
export function askedWords(need: Value): string {
  const text = String(need ?? '');
  return text.startsWith('asks: ') ? (ruleOf(text.slice(6))?.asks ?? '') : '';
}
