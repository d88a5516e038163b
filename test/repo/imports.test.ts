import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';

const root = join(import.meta.dirname, '../..');

/** What the linter says of a text planted in this folder. */
function lint(folder: string, text: string): string {
  const path = join(root, folder, 'planted-by-a-test.ts');
  writeFileSync(path, text);
  try {
    const { stdout, stderr } = spawnSync('npx', ['biome', 'lint', path], {
      cwd: root,
      encoding: 'utf8',
    });
    return stdout + stderr;
  } finally {
    rmSync(path);
  }
}

describe('analysis/ runs without a page', () => {
  test('importing the dashboard is refused, with the reason', () => {
    const said = lint(
      'analysis/rank',
      "import { x } from '../../dashboard/state/store.ts';\nx();\n",
    );
    expect(said).toContain('analysis/ never imports dashboard/');
  });

  test.each(['document', 'window', 'fetch', 'Date', 'localStorage'])(
    'the global %s is refused',
    (name) => {
      const said = lint('analysis/rank', `export const y = () => ${name};\n`);
      expect(said).toContain('noRestrictedGlobals');
    },
  );

  test('the same text is accepted in the dashboard', () => {
    expect(lint('dashboard', 'export const y = () => document;\n')).not.toContain(
      'noRestrictedGlobals',
    );
  });

  test('the types of a page do not compile there', () => {
    const folder = join(root, '.cache', 'planted');
    mkdirSync(folder, { recursive: true });
    const options = {
      noEmit: true,
      composite: false,
      emitDeclarationOnly: false,
      rootDir: '../..',
    };
    writeFileSync(
      join(folder, 'tsconfig.json'),
      JSON.stringify({
        extends: '../../analysis/tsconfig.json',
        compilerOptions: options,
        include: ['planted.ts', '../../analysis/platform.d.ts'],
        exclude: [],
      }),
    );
    writeFileSync(
      join(folder, 'planted.ts'),
      'export const title = (): string => document.title;\n',
    );
    const { stdout, status } = spawnSync('npx', ['tsc', '-p', folder], {
      cwd: root,
      encoding: 'utf8',
    });
    rmSync(folder, { recursive: true });
    expect(stdout).toContain("Cannot find name 'document'");
    expect(status).not.toBe(0);
  });
});
