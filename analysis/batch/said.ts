import { type Column, type Columns, numbers, texts } from '../columns.ts';
import { identifier, type KeepingEngine } from '../engine/port.ts';

/** Texts of the ranking that differ from row to row; all its others are words that many rows share. */
const free = ['building_id', 'name', 'wall_id'];

/**
 * The columns of a table `ranked` that hold words. In `kept.result` they stand as codes of `kept.said`: a result of ten
 * million rows is then sorted and read several times as fast.
 */
export async function saidColumns(engine: KeepingEngine): Promise<string[]> {
  const found = await engine.query(
    "SELECT column_name AS name FROM duckdb_columns() WHERE database_name = 'memory' AND table_name = 'ranked' AND data_type = 'VARCHAR'",
  );
  return texts(found, 'name')
    .map((name) => name!)
    .filter((name) => !free.includes(name));
}

/** Adds the words of `ranked` that are not yet among those kept. */
export async function keepSaid(engine: KeepingEngine, columns: readonly string[]): Promise<void> {
  await engine.query('CREATE TABLE IF NOT EXISTS kept.said (code DOUBLE, word VARCHAR)');
  const words = columns.map((name) => `SELECT DISTINCT ${identifier(name)} AS word FROM ranked`);
  await engine.query(`INSERT INTO kept.said
    SELECT (SELECT count(*) FROM kept.said) + row_number() OVER () - 1, word
    FROM (${words.join(' UNION ')}) found
    WHERE word IS NOT NULL AND word NOT IN (SELECT word FROM kept.said)`);
}

/** Replacements of a select list over `ranked r`, and the joins behind them, that put codes in the place of words. */
export function saidCodes(columns: readonly string[]): {
  readonly replace: string;
  readonly joins: string;
} {
  const of = (name: string) => identifier(`said_of_${name}`);
  return {
    replace: columns.map((name) => `${of(name)}.code AS ${identifier(name)}`).join(', '),
    joins: columns
      .map((name) => `LEFT JOIN kept.said ${of(name)} ON ${of(name)}.word = r.${identifier(name)}`)
      .join(' '),
  };
}

/** What the codes of `kept.said` stand for, by code. */
export async function saidWords(engine: KeepingEngine): Promise<readonly string[]> {
  const found = await engine.query('SELECT word FROM kept.said ORDER BY code');
  return texts(found, 'word').map((word) => word!);
}

/** Rows of `kept.result` with the words in place again. */
export function withWords(
  rows: Columns,
  columns: readonly string[],
  words: readonly string[],
): Columns {
  const spoken = (name: string): Column => {
    const codes = numbers(rows, name);
    const texts = new Array<string | null>(codes.length);
    for (let i = 0; i < codes.length; i += 1) texts[i] = words[codes[i]!] ?? null;
    return texts;
  };
  const cols = columns.map((name) => [name, spoken(name)] as const);
  return { n: rows.n, cols: { ...rows.cols, ...Object.fromEntries(cols) } };
}
