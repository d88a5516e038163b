import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';

const program = join(import.meta.dirname, '../../dist/cli/rainledger.mjs');
const folder = mkdtempSync(join(tmpdir(), 'rainledger-'));
const at = (name: string) => join(folder, name);

function rainledger(...args: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], {
    encoding: 'utf8',
  });
  return { status, stdout, stderr };
}

const put = (name: string, text: string): string => {
  writeFileSync(at(name), text);
  return at(name);
};
const buildings = put(
  'buildings.csv',
  'building_id,name,latitude,longitude,region,use\nA,Alder Court,47.61,-122.33,WA,apartment\nB,Mesquite Row,33.45,-112.07,AZ,house\nC,Swapped,-122.3,47.6,WA,house\n',
);
const walls = put(
  'walls.csv',
  'building_id,material,drainage,sheathing\nA,stucco,none,osb\nB,stucco,none,osb\n',
);

describe('the commands of README.md', () => {
  const readme = readFileSync(join(import.meta.dirname, '../../README.md'), 'utf8');
  const lines = [...readme.matchAll(/^ {4}npx rainledger (.*)$/gm)].map(([, args]) => args!);
  test('are there, and do what they say, in order', () => {
    expect(lines.length).toBeGreaterThan(3);
    for (const line of lines) {
      const { status, stderr } = spawnSync(process.execPath, [program, ...line.split(/\s+/)], {
        encoding: 'utf8',
        cwd: folder,
      });
      expect(stderr, line).toBe('');
      expect(status, line).toBe(0);
    }
  });
});

describe('rainledger', () => {
  test('--help tells the commands, and exits 0', () => {
    const { status, stdout } = rainledger('--help');
    expect(status).toBe(0);
    for (const command of ['demo', 'check', 'rank', 'explain']) {
      expect(stdout).toContain(`rainledger ${command}`);
      expect(rainledger(command, '--help').status).toBe(0);
    }
  });

  test.each([
    [['paint'], 'There is no command "paint"'],
    [['rank', '--buildings', buildings], 'needs --out'],
    [['rank', '--buildings', buildings, '--out', at('x.docx')], 'must end in'],
    [['rank', '--buildings', buildings, '--out', at('x.csv'), '--colour', 'red'], 'colour'],
    [
      ['rank', '--buildings', buildings, '--out', at('x.csv'), '--units', 'cubits'],
      'metric or american',
    ],
    [['demo', '--out', folder, '--buildings', 'many'], 'whole number'],
    [
      ['explain', '--buildings', buildings, '--building', 'A', '--column', 'colour'],
      'no column "colour"',
    ],
  ])('wrong use %j exits 2 and says why', (args, words) => {
    const { status, stderr } = rainledger(...args);
    expect(stderr).toContain(words);
    expect(status).toBe(2);
  });

  test.each([
    [['rank', '--buildings', at('absent.csv'), '--out', at('x.csv')], 'There is no file'],
    [['rank', '--buildings', put('empty.csv', ''), '--out', at('x.csv')], 'empty.csv'],
    [
      ['rank', '--buildings', put('heads.csv', 'id,where\n1,2\n'), '--out', at('x.csv')],
      'no column that could be meant',
    ],
    [
      [
        'rank',
        '--buildings',
        buildings,
        '--settings',
        put('s.json', '{"constants": {"weight_load": "much"}}'),
        '--out',
        at('x.csv'),
      ],
      'a number is needed',
    ],
    [
      ['rank', '--buildings', buildings, '--settings', put('t.json', '{'), '--out', at('x.csv')],
      'not a settings file',
    ],
    [['explain', '--buildings', buildings, '--building', 'Z'], 'There is no building Z'],
  ])('refused inputs %j exit 1, say why and write nothing', (args, words) => {
    const { status, stderr } = rainledger(...args);
    expect(stderr).toContain(words);
    expect(status).toBe(1);
    expect(existsSync(at('x.csv'))).toBe(false);
    expect(readdirSync(folder).filter((name) => name.includes('.part'))).toEqual([]);
  });

  test('check reads and writes nothing', () => {
    const before = readdirSync(folder);
    const { status, stdout } = rainledger('check', '--buildings', buildings, '--walls', walls);
    expect(status).toBe(0);
    expect(stdout).toContain('buildings.csv (buildings): 3 rows read = 2 accepted + 1 set aside');
    expect(stdout).toContain('swapped');
    expect(readdirSync(folder)).toEqual(before);
  });

  test('rank writes the file, its about and its set-aside rows', () => {
    const out = at('ranked.csv');
    const { status, stdout } = rainledger(
      'rank',
      '--buildings',
      buildings,
      '--walls',
      walls,
      '--out',
      out,
    );
    expect(status).toBe(0);
    expect(stdout).toContain('Screening, not diagnosis');
    const lines = readFileSync(out, 'utf8').trimEnd().split('\r\n');
    expect(lines).toHaveLength(3);
    expect(lines[1]).toMatch(/^1,A,Alder Court/);
    expect(JSON.parse(readFileSync(`${out}.about.json`, 'utf8')).as_of).toBe(2026);
    expect(readFileSync(`${out}.set-aside.csv`, 'utf8')).toContain('buildings.csv,building,4,');
  });

  test('rank twice gives the same bytes, and --as-of is told in the about', () => {
    const once = (name: string) => {
      rainledger(
        'rank',
        '--buildings',
        buildings,
        '--walls',
        walls,
        '--as-of',
        '2030',
        '--out',
        at(name),
      );
      return [readFileSync(at(name), 'utf8'), readFileSync(`${at(name)}.about.json`, 'utf8')];
    };
    const [first, about] = once('one.json');
    expect(once('two.json')).toEqual([first, about]);
    expect(JSON.parse(about!).as_of).toBe(2030);
  });

  test('explain prints the derivation down to the grid nodes and writes it as JSON', () => {
    const out = at('index.json');
    const { status, stdout } = rainledger(
      'explain',
      '--buildings',
      buildings,
      '--walls',
      walls,
      '--building',
      'A',
      '--out',
      out,
    );
    expect(status).toBe(0);
    expect(stdout).toContain('100 · w^α · d^β · s^γ');
    expect(stdout).toMatch(/grid node 48° N 123° W: \d+ mm per year, share/);
    expect(JSON.parse(readFileSync(out, 'utf8')).label).toContain('index');
  });

  test('demo writes a portfolio that rank reads', () => {
    expect(rainledger('demo', '--out', at('demo'), '--buildings', '40').status).toBe(0);
    const files = ['--buildings', at('demo/buildings.csv'), '--walls', at('demo/walls.csv')];
    const { status, stdout } = rainledger('rank', ...files, '--out', at('demo.geojson'));
    expect(stdout).toContain('First look');
    expect(status).toBe(0);
  });
});
