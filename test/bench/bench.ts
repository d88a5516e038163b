import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { preview } from 'vite';
import { launch } from '../browser/chromium.ts';
import { batchOfMillion, batchOfTenMillion } from './batch.ts';
import { commandLine } from './command-line.ts';
import { type Bench, type Line, type Subject, tableRow } from './line.ts';
import { bareList, rerank, sort } from './list.ts';
import { mapDrawn, mapMoved } from './map-lines.ts';
import { hundredThousand, million } from './open.ts';
import { sampling } from './sampling.ts';
import { firstVisit } from './start.ts';

/** `npm run bench` measures all of these but those that take hours; `npm run bench -- sort map` only those named. */
const subjects: Readonly<Record<string, Subject>> = {
  start: firstVisit,
  sampling,
  hundred: hundredThousand,
  'command-line': commandLine,
  list: bareList,
  sort,
  weights: rerank,
  map: mapDrawn,
  move: mapMoved,
  million,
  batch: batchOfMillion,
  'ten-million': batchOfTenMillion,
};

/** Measured only where it is named: it takes an hour or two and 15 GB of disk. */
const onlyNamed = 'ten-million';

interface Opened extends Bench {
  readonly close: () => Promise<void>;
}

/** Starts page and browser with the first subject that asks for them. */
function openBench(): Opened {
  const folder = mkdtempSync(join(tmpdir(), 'rainledger-bench-'));
  let browser: Promise<Browser> | undefined;
  let server: ReturnType<typeof preview> | undefined;
  return {
    folder,
    browser: () => {
      browser ??= launch();
      return browser;
    },
    origin: async () => {
      server ??= preview({ preview: { port: 4473 }, logLevel: 'error' });
      return (await server).resolvedUrls!.local[0]!;
    },
    close: async () => {
      await (await browser)?.close();
      await (await server)?.close();
      rmSync(folder, { recursive: true });
    },
  };
}

/** Subjects that need no browser. */
const withoutPage = ['sampling', 'command-line', 'batch', 'ten-million'];

async function machine(bench: Bench, names: readonly string[]): Promise<string> {
  const { node } = process.versions;
  const own = names.every((name) => withoutPage.includes(name));
  const version = own ? '' : `, Chromium ${(await bench.browser()).version()}`;
  const cores = cpus();
  return `${cores.length} cores, ${cores[0]?.model}; Node ${node}${version}`;
}

/** A subject that breaks leaves the lines of the others. */
async function measured(bench: Bench, names: readonly string[]): Promise<Line[]> {
  const lines: Line[] = [];
  for (const name of names) {
    try {
      const found = await subjects[name]!(bench);
      lines.push(...found);
      console.table(found.map(tableRow));
    } catch (cause) {
      process.exitCode = 1;
      console.error(`${name} could not be measured:`, cause);
    }
  }
  return lines;
}

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !subjects[name]);
if (unknown.length > 0) {
  console.error(
    `No subject ${unknown.join(', ')}. There are: ${Object.keys(subjects).join(', ')}.`,
  );
  process.exit(2);
}
const names = asked.length > 0 ? asked : Object.keys(subjects).filter((name) => name !== onlyNamed);
const bench = openBench();
try {
  console.log(await machine(bench, names));
  const lines = await measured(bench, names);
  if (names.length > 1) console.table(lines.map(tableRow));
} finally {
  await bench.close();
}
