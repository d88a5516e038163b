import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Papa from 'papaparse';
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

describe('files as people have them, on the command line', () => {
  const own = put(
    'own.csv',
    'Bldg No;Bldg Name;Lat;Long;Yr Built;Height (ft)\nX1;Quarry House;47,61;-122,33;1994;45\nX2;Heron Court;47,61;122,33;1994;30\n',
  );

  test('the guess is printed, written as a map, and read by it again', () => {
    const map = at('map.json');
    const { status, stdout } = rainledger('check', '--buildings', own, '--write-map', map);
    expect(status).toBe(0);
    expect(stdout).toContain('“Height (ft)” read as height_m, in ft');
    const again = rainledger('rank', '--buildings', own, '--map', map, '--out', at('own-r.csv'));
    expect(again.status).toBe(0);
    expect(readFileSync(at('own-r.csv'), 'utf8')).toContain('Quarry House');
  });

  test('corrections written into the set-aside table are read, and the sidecar repeats the run', () => {
    const swapped = put(
      'swapped.csv',
      'id,state,lat,lon\nX1,WA,47.61,-122.33\nX2,WA,47.61,122.33\n',
    );
    const out = at('swapped-r.csv');
    expect(rainledger('rank', '--buildings', swapped, '--out', out).status).toBe(0);
    const aside = readFileSync(`${out}.set-aside.csv`, 'utf8').split('\r\n');
    const corrected = put(
      'corrected.csv',
      aside.map((line) => (line.includes('minus') ? `${line}-122.33` : line)).join('\r\n'),
    );
    const mended = rainledger(
      'rank',
      '--buildings',
      swapped,
      '--corrections',
      corrected,
      '--out',
      at('mended.csv'),
    );
    expect(mended.stdout).toContain('2 rows read = 2 accepted + 0 set aside');
    const repeat = rainledger(
      'rank',
      '--buildings',
      swapped,
      '--settings',
      at('mended.csv.about.json'),
      '--out',
      at('repeat.csv'),
    );
    expect(repeat.status).toBe(0);
    expect(readFileSync(at('repeat.csv'))).toEqual(readFileSync(at('mended.csv')));
  });

  test.each(['xlsx', 'parquet', 'geojson', 'json'])('a ranking is written as %s', (ending) => {
    const out = at(`ranking.${ending}`);
    expect(rainledger('rank', '--buildings', own, '--out', out).status).toBe(0);
    expect(readFileSync(out).length).toBeGreaterThan(200);
  });
});

describe('sample and infer', () => {
  const demo = at('sample-demo');
  rainledger('demo', '--out', demo);
  const inputs = ['--buildings', join(demo, 'buildings.csv'), '--walls', join(demo, 'walls.csv')];
  const plan = at('plan-a.csv');
  const draw = (...more: string[]) => rainledger('sample', ...inputs, ...more, '--out', plan);

  test('the same seed draws the same walls, and the plan is locked by its digest', () => {
    expect(draw('--size', '30', '--strata', 'tier').status).toBe(0);
    const first = readFileSync(plan);
    const { stdout } = draw('--size', '30', '--strata', 'tier');
    expect(readFileSync(plan)).toEqual(first);
    expect(stdout).toMatch(/locked under SHA-256 [0-9a-f]{64}/);
  });

  test('findings at the walls chosen give a share with its interval; none found has its upper bound', () => {
    draw('--size', '30');
    const [heads, ...rows] = readFileSync(plan, 'utf8').trim().split('\r\n');
    const names = heads!.split(',');
    const cell = (row: string, name: string) =>
      Papa.parse<string[]>(row).data[0]![names.indexOf(name)]!;
    const lines = rows.map(
      (row) =>
        `${cell(row, 'building_id')},"${cell(row, 'wall_id')}",2026-05-01,opening,yes,sound,plan-a`,
    );
    const findings = put(
      'findings.csv',
      `building_id,wall_id,observed_on,method,sheathing_seen,condition,plan_id\n${lines.join('\n')}\n`,
    );
    const told = rainledger(
      'infer',
      '--sample',
      plan,
      '--findings',
      findings,
      '--out',
      at('i.json'),
    );
    expect(told.stderr).toBe('');
    expect(told.stdout).toContain('30 rows read = 30 accepted + 0 set aside');
    expect(told.stdout).toMatch(/Share of walls: 0 %, between 0 % and 1[0-2](\.\d)? % \(exact/);
    expect(JSON.parse(readFileSync(at('i.json'), 'utf8')).inference.overall.share.found).toBe(0);
  });

  test('a plan changed after it was locked is refused', () => {
    draw('--size', '30');
    const text = readFileSync(`${plan}.plan.json`, 'utf8');
    writeFileSync(`${plan}.plan.json`, text.replace('"seed":1', '"seed":2'));
    const { status, stderr } = rainledger('infer', '--sample', plan, '--findings', plan);
    expect(status).toBe(1);
    expect(stderr).toContain('changed after it was drawn');
  });

  test('more openings than there are walls select them all, and say so', () => {
    const { status, stdout } = draw('--size', '999999');
    expect(status).toBe(0);
    expect(stdout).toContain('all are selected, and nothing is left to chance');
  });

  test.each([
    [['--size', '30', '--margin', '0.1'], 2, 'Give one of'],
    [['--size', '30', '--strata', 'colour'], 2, '--strata takes'],
  ])('%j exits %d and says why', (args, code, words) => {
    const { status, stderr } = draw(...args);
    expect(stderr).toContain(words);
    expect(status).toBe(code);
  });
});
