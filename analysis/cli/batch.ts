import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, rmdirSync, rmSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { anyRemarks, firstRemarks, remarksText } from '../batch/remarks.ts';
import { type BatchRun, runBatch } from '../batch/run.ts';
import { openKeeping } from '../engine/native.ts';
import { EngineError, type KeepingEngine } from '../engine/port.ts';
import { mapIn } from '../inputs.ts';
import { type Format, formatOf } from '../read/format.ts';
import { type ByteSource, Refusal } from '../read/outcome.ts';
import type { ExportFormat, Inputs } from '../session-types.ts';
import type { Settings } from '../settings.ts';
import type { UnitSystem } from '../units.ts';
import { methodVersion, softwareName } from '../version.ts';
import { notWritten, readAssets, wholeFiles } from './files.ts';
import { type Flags, one, UsageError } from './flags.ts';
import { inputFlags } from './inputs.ts';
import { clearProgress, printRanked, terminalProgress } from './report.ts';

export const batchFlag = {
  batch: {
    value: 'auto|always|never',
    help: 'work in parts, on disk, instead of in memory (auto: where the files are large)',
  },
} as const;

/** The work was stopped by its user: exit code 130, as shells have it. */
export class Stopped extends Error {}

const choices = ['auto', 'always', 'never'] as const;

/** Bytes of text from which a portfolio is worked on in parts: about 200 thousand buildings with their walls, 3 GB in memory. */
const largeBytes = 100e6;

/** Bytes of text that a byte of each format stands for. By judgement. */
const unpacked: Readonly<Record<Format, number>> = { text: 1, json: 1, parquet: 8, workbook: 8 };

/**
 * Whether the ranking is made in parts. Throws a UsageError for an unknown choice, a Refusal where parts are asked for and
 * the files do not allow them.
 */
export async function inParts(flags: Flags, inputs: Inputs): Promise<boolean> {
  const wanted = one(flags, 'batch') ?? 'auto';
  const choice = choices.find((word) => word === wanted);
  if (!choice) throw new UsageError(`--batch is one of ${choices.join(', ')}, not "${wanted}".`);
  if (choice === 'never' || (choice === 'auto' && (await bytesOf(inputs)) < largeBytes)) {
    return false;
  }
  const { shape } = await mapIn(inputs, inputs.buildings, 'buildings');
  if (shape !== 'wall rows') return true;
  if (choice === 'auto') return false;
  throw new Refusal(
    inputs.buildings.name,
    `${inputs.buildings.name} has a row for each wall, and rows of one building are put together in memory. Leave --batch out, or give buildings and walls as two files.`,
  );
}

async function bytesOf({ buildings, walls = [] }: Inputs): Promise<number> {
  let sum = 0;
  for (const file of [buildings, ...walls]) sum += file.size * unpacked[await formatOf(file)];
  return sum;
}

/** Everything that the outcome hangs on. Of files their place, size and time: to read them takes as long as to rank them. */
function keyOf(flags: Flags, { maps, edits }: Inputs, settings: Settings): string {
  const files = [...Object.keys(inputFlags), 'settings']
    .flatMap((flag) => [flags[flag] ?? []].flat())
    .map((path) => [resolve(path), statSync(path).size, statSync(path).mtimeMs]);
  const all = [softwareName, methodVersion, files, maps, edits, settings];
  return createHash('sha256').update(JSON.stringify(all)).digest('hex');
}

async function digest(file: ByteSource): Promise<string> {
  const hash = createHash('sha256');
  for await (const chunk of file.bytes()) hash.update(chunk);
  return hash.digest('hex');
}

/** Memory of the engine, MB: with what the reading and the program itself take, the whole stays below 6 GB. */
const memoryMb = 2500;

const keptIn = (folder: string): string => join(folder, 'kept.duckdb');
const temporaryIn = (folder: string): string => join(folder, 'temporary');

/** Takes away what runs put into the folder, and the folder where nothing else is in it. */
function clear(folder: string): void {
  for (const path of [keptIn(folder), `${keptIn(folder)}.wal`, temporaryIn(folder)]) {
    rmSync(path, { recursive: true, force: true });
  }
  if (existsSync(folder) && readdirSync(folder).length === 0) rmdirSync(folder);
}

/** Opens the engine over the folder; a database there that cannot be used is thrown away. */
async function openOver(folder: string, out: string): Promise<KeepingEngine> {
  const open = () => {
    mkdirSync(folder, { recursive: true });
    return openKeeping({ kept: keptIn(folder), temporary: temporaryIn(folder), memoryMb });
  };
  try {
    return await open();
  } catch (cause) {
    if (/\block\b/i.test(`${cause}`)) {
      throw new Refusal(
        out,
        `Another run is writing ${out}: its folder ${folder} is in use. Wait for it, or write to another file.`,
      );
    }
    if (isOfFiles(cause)) throw notWritten(out, cause);
    clear(folder);
    return open();
  }
}

/** Whether the file system refused, as Node says it. */
const isOfFiles = (cause: unknown): boolean =>
  typeof (cause as { readonly syscall?: unknown }).syscall === 'string';

export interface Ranking {
  readonly out: string;
  readonly format: ExportFormat;
  readonly units: UnitSystem;
  readonly inputs: Inputs;
  readonly settings: Settings;
}

/**
 * Ranks in parts, in a folder beside `out` that is taken away at the end. Stopped by its user or by the machine, the same
 * command goes on after the last buildings that were scored.
 */
export async function rankInParts(
  flags: Flags,
  ranking: Ranking,
  print: (line: string) => void,
): Promise<void> {
  const folder = `${ranking.out}.work`;
  const stop = new AbortController();
  const asked = () => stop.abort();
  process.once('SIGINT', asked).once('SIGTERM', asked);
  const engine = await openOver(folder, ranking.out);
  let done = false;
  try {
    await ranked(engine, flags, ranking, stop.signal, print);
    done = true;
  } catch (cause) {
    // From what is refused there is nothing to go on with.
    done = cause instanceof Refusal;
    throw stop.signal.aborted ? stopped(folder) : inWords(cause, folder, ranking.out);
  } finally {
    clearProgress();
    await engine.close();
    if (done) clear(folder);
    process.off('SIGINT', asked).off('SIGTERM', asked);
  }
}

const stopped = (folder: string): Stopped =>
  new Stopped(
    `Stopped; nothing was written. What was done is kept in ${folder}: the same command goes on from there.`,
  );

/** What the machine refuses, in words; anything else as it is. */
function inWords(cause: unknown, folder: string, out: string): unknown {
  const full = (cause as { readonly code?: unknown }).code === 'ENOSPC';
  const engine = cause instanceof EngineError && /no space|out of memory/i.test(cause.message);
  if (engine || full) {
    return new Refusal(
      folder,
      `There is not enough room on the disk or in memory for ${folder}. Make room and give the same command again: it goes on from where it stopped.`,
    );
  }
  return isOfFiles(cause) ? notWritten(out, cause) : cause;
}

async function ranked(
  engine: KeepingEngine,
  flags: Flags,
  { out, format, units, inputs, settings }: Ranking,
  signal: AbortSignal,
  print: (line: string) => void,
): Promise<void> {
  const onProgress = terminalProgress();
  const run = await runBatch({
    engine,
    inputs,
    assets: readAssets(),
    settings,
    format,
    key: keyOf(flags, inputs, settings),
    watching: { signal, ...(onProgress ? { onProgress } : {}) },
  });
  const files = wholeFiles();
  const beside = { about: `${out}.about.json`, aside: `${out}.set-aside.csv` };
  try {
    const about = await run.about(digest);
    await run.put({ format, units, about }, (bytes) => files.put(out, bytes));
    files.put(beside.about, about);
    const remarks = await anyRemarks(engine);
    if (remarks) for await (const text of remarksText(engine)) files.put(beside.aside, text);
    files.move();
    clearProgress();
    for (const line of begunLines(run)) print(line);
    printRanked(
      { ...run, remarks: await firstRemarks(engine, 3) },
      [out, beside.about, ...(remarks ? [beside.aside] : [])],
      print,
    );
  } catch (cause) {
    files.discard();
    throw cause;
  }
}

function begunLines({ begun }: BatchRun): string[] {
  if (begun === 'new') return [];
  if (begun === 'changed')
    return ['Files or settings are not those of the run that was stopped, so all was done anew.'];
  return [`Went on from a run that was stopped when ${begun.scored} buildings were scored.`];
}
