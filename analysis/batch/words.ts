import type { TextColumn } from '../columns.ts';
import { type ColumnRule, isNumeric } from '../read/schema.ts';

/** Words that many rows share, each kept once: in ten million rows a number is read and written far faster. */
export interface Words {
  readonly codes: (words: TextColumn) => Float64Array;
  /** All words; the code of each is its place. */
  readonly list: () => string[];
}

export function newWords(): Words {
  const known = new Map<string, number>();
  const codeOf = (word: string): number => {
    const found = known.get(word);
    if (found !== undefined) return found;
    known.set(word, known.size);
    return known.size - 1;
  };
  return {
    codes: (words) => {
      const codes = new Float64Array(words.length);
      for (let i = 0; i < words.length; i += 1) {
        const word = words[i] ?? null;
        codes[i] = word === null ? Number.NaN : codeOf(word);
      }
      return codes;
    },
    list: () => [...known.keys()],
  };
}

/** Whether the column is kept as codes: what it can hold is a list, not whatever its user writes. */
export const isWord = (rule: ColumnRule): boolean =>
  !isNumeric(rule) && (rule.kind !== 'text' || rule.derived === true);
