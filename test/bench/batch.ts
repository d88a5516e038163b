import { spawn } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Bench, Line } from './line.ts';
import { type PortfolioFiles, portfolioOf } from './portfolio.ts';

interface Run {
  readonly ms: number;
  /** Most memory that the process held at once, MB. */
  readonly peak: number;
}

/** A program of its own, for its memory to be its own too. Throws where it ends in trouble. */
function run(args: readonly string[]): Promise<Run> {
  return new Promise((resolve, reject) => {
    const start = performance.now();
    const child = spawn(process.execPath, args, { stdio: ['ignore', 'ignore', 'inherit'] });
    let peak = 0;
    const look = setInterval(() => {
      peak = peakOf(child.pid!) ?? peak;
    }, 200);
    child.on('exit', (code) => {
      clearInterval(look);
      if (code === 0) resolve({ ms: performance.now() - start, peak });
      else reject(new Error(`${args.join(' ')} ended with ${code}`));
    });
  });
}

/** The high-water mark that Linux keeps of a process, MB; undefined elsewhere, or when it has ended. */
function peakOf(pid: number): number | undefined {
  try {
    const kb = /^VmHWM:\s+(\d+) kB/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1];
    return kb === undefined ? undefined : Number(kb) / 1000;
  } catch {
    return undefined;
  }
}

/** DuckDB alone, both cores, into a file: it reads the same files as text and does nothing with them. */
const bareRead = `
  const { DuckDBInstance } = await import('@duckdb/node-api');
  const [folder, ...files] = process.argv.slice(1);
  const instance = await DuckDBInstance.create(folder + '/bare.duckdb', { memory_limit: '4GB' });
  const connection = await instance.connect();
  for (const [i, file] of files.entries()) {
    await connection.run('CREATE TABLE t' + i + ' AS SELECT * FROM read_csv(?, all_varchar = true)', [file]);
  }
  connection.closeSync();
  instance.closeSync();`;

async function bare({ folder }: Bench, { buildings, walls }: PortfolioFiles): Promise<Run> {
  const done = await run(['--input-type=module', '-e', bareRead, folder, buildings, walls]);
  rmSync(join(folder, 'bare.duckdb'), { force: true });
  return done;
}

const program = fileURLToPath(new URL('./rainledger.mjs', import.meta.url));

/** A portfolio ranked by the command line in parts, into Parquet: time and memory. */
const inParts =
  (n: number) =>
  async (bench: Bench): Promise<readonly Line[]> => {
    const files = portfolioOf(bench.folder, n);
    const read = await bare(bench, files);
    const out = join(bench.folder, 'ranking.parquet');
    const { buildings, walls } = files;
    const ranked = await run(
      [program, 'rank', '--buildings', buildings, '--walls', walls, '--out', out].concat(
        '--batch',
        'always',
      ),
    );
    const line = {
      work: `${files.size}: CSV to ranking in Parquet, command line, in parts`,
      baselineName: 'native DuckDB, reading alone',
    };
    return [
      { ...line, figure: ranked.ms, unit: 'ms', baseline: read.ms, goal: { ratio: 2 } },
      { ...line, figure: ranked.peak, unit: 'MB', baseline: read.peak, goal: { most: 6000 } },
    ];
  };

export const batchOfMillion = inParts(1_000_000);
export const batchOfTenMillion = inParts(10_000_000);
