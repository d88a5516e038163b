import { spawn, spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test, vi } from 'vitest';

vi.setConfig({ testTimeout: 120_000 });

const program = join(import.meta.dirname, '../../dist/cli/rainledger.mjs');
const folder = mkdtempSync(join(tmpdir(), 'rainledger-parts-'));
const at = (name: string) => join(folder, name);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function rainledger(...args: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], {
    encoding: 'utf8',
  });
  return { status, stdout, stderr };
}

const demo = at('demo');
rainledger('demo', '--out', demo, '--buildings', '300');
const files = ['--buildings', join(demo, 'buildings.csv'), '--walls', join(demo, 'walls.csv')];
const rank = (out: string, ...more: string[]) =>
  rainledger('rank', ...files, ...more, '--out', out);

describe('rank in parts', () => {
  test('writes what rank in memory writes, says the same, and leaves no folder', () => {
    const [whole, parts] = [rank(at('whole.csv')), rank(at('parts.csv'), '--batch', 'always')];
    expect(parts.stderr).toBe('');
    expect(parts.status).toBe(0);
    expect(parts.stdout.replaceAll('parts.csv', 'whole.csv')).toBe(whole.stdout);
    for (const beside of ['', '.about.json', '.set-aside.csv']) {
      expect(readFileSync(at(`parts.csv${beside}`))).toEqual(
        readFileSync(at(`whole.csv${beside}`)),
      );
    }
    expect(readdirSync(folder).filter((name) => /\.work$|\.part$/.test(name))).toEqual([]);
  });

  test('is stopped by its user with a word and exit code 130, and the same command goes on', async () => {
    const out = at('stopped.csv');
    const args = ['rank', ...files, '--batch', 'always', '--out', out];
    const going = spawn(process.execPath, [program, ...args]);
    let said = '';
    going.stderr.on('data', (text) => {
      said += text;
    });
    // Once its tables are there it is at work.
    await vi.waitFor(() => expect(existsSync(join(`${out}.work`, 'kept.duckdb'))).toBe(true), {
      timeout: 60_000,
    });
    going.kill('SIGINT');
    const status = await new Promise((done) => going.on('exit', done));
    expect(said).toContain('the same command goes on from there');
    expect(status).toBe(130);
    expect(existsSync(out)).toBe(false);
    expect(rainledger(...args).status).toBe(0);
    expect(existsSync(out)).toBe(true);
    expect(existsSync(`${out}.work`)).toBe(false);
  });

  test('throws away a database that it cannot use, and leaves alone what is not its own', () => {
    const out = at('spoilt.csv');
    mkdirSync(`${out}.work`);
    writeFileSync(join(`${out}.work`, 'kept.duckdb'), 'no database');
    writeFileSync(join(`${out}.work`, 'notes.txt'), 'of theirs');
    expect(rank(out, '--batch', 'always').status).toBe(0);
    expect(existsSync(out)).toBe(true);
    expect(readdirSync(`${out}.work`)).toEqual(['notes.txt']);
  });

  test('leaves nothing behind where it refuses its files', () => {
    const list = at('none.csv');
    writeFileSync(list, 'building_id,latitude,longitude\nA,0,0\n');
    const { status, stderr } = rainledger(
      ...['rank', '--buildings', list, '--batch', 'always', '--out', at('none-r.csv')],
    );
    expect(stderr).toContain('None of the 1 rows');
    expect(status).toBe(1);
    expect(readdirSync(folder).filter((name) => name.startsWith('none-r'))).toEqual([]);
  });

  test('refuses in words a sheet with a row for each wall, and a choice that there is not', () => {
    const sheet = at('sheet.csv');
    const rows = ['A', 'A', 'B', 'B', 'C', 'C'].map((id, i) => `${id},47.6,-122.3,W${i},stucco`);
    writeFileSync(sheet, `building_id,latitude,longitude,wall_id,material\n${rows.join('\n')}\n`);
    const asked = ['rank', '--buildings', sheet, '--out', at('x.csv')];
    const refused = rainledger(...asked, '--batch', 'always');
    expect(refused.stderr).toContain('has a row for each wall');
    expect(refused.status).toBe(1);
    expect(rainledger(...asked).status).toBe(0);
    const wrong = rainledger(...asked, '--batch', 'perhaps');
    expect(wrong.stderr).toContain('auto, always, never');
    expect(wrong.status).toBe(2);
  });
});
