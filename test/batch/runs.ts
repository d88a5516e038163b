import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { remarksText } from '../../analysis/batch/remarks.ts';
import { type BatchOptions, type BatchRun, runBatch } from '../../analysis/batch/run.ts';
import { openKeeping, openNative } from '../../analysis/engine/native.ts';
import type { KeepingEngine } from '../../analysis/engine/port.ts';
import { createSession } from '../../analysis/session.ts';
import type { ExportFormat, Inputs, ReadReport } from '../../analysis/session-types.ts';
import { defaultSettings } from '../../analysis/settings.ts';
import type { UnitSystem } from '../../analysis/units.ts';
import { assets } from '../session/open.ts';

/** What a run gives. */
export interface Outcome {
  readonly files: Readonly<Record<string, Buffer>>;
  readonly about: string;
  readonly report: ReadReport;
  readonly remarks: string;
}

/** The files that are asked of a run. */
export type Asked = readonly (readonly [ExportFormat, UnitSystem])[];

export const csvAlone: Asked = [['csv', 'metric']];

/** The run in memory, which all others are compared with. */
export async function inMemory(inputs: Inputs, asked: Asked = csvAlone): Promise<Outcome> {
  const engine = await openNative();
  const session = createSession(engine, assets());
  const report = await session.open(inputs);
  const files: Record<string, Buffer> = {};
  let about = '';
  for (const [format, units] of asked) {
    const written = await session.write(format, units);
    files[`${format} ${units}`] = Buffer.from(written.bytes);
    about = written.about;
  }
  const remarks = await session.remarksText();
  await engine.close();
  return { files, about, report, remarks };
}

const made: string[] = [];

/** A folder in which runs keep their tables. */
export function workFolder(): string {
  made.push(mkdtempSync(join(tmpdir(), 'rainledger-batch-')));
  return made.at(-1)!;
}

export function removeFolders(): void {
  for (const path of made.splice(0)) rmSync(path, { recursive: true, force: true });
}

/** Sizes so small that files are read in several parts and the buildings are scored in several shards. */
const small = { part: 97, shard: 300 };

/** A run that keeps its tables in the folder, and what `use` makes of it. */
export async function kept<T>(
  folder: string,
  inputs: Inputs,
  use: (run: BatchRun, engine: KeepingEngine) => Promise<T>,
  more: Partial<BatchOptions> = {},
  watched: (engine: KeepingEngine) => KeepingEngine = (engine) => engine,
): Promise<T> {
  const engine = await openKeeping({
    kept: join(folder, 'kept.duckdb'),
    temporary: join(folder, 'temporary'),
    memoryMb: 1000,
  });
  try {
    const run = await runBatch({
      engine: watched(engine),
      inputs,
      assets: assets(),
      settings: defaultSettings,
      format: 'csv',
      key: 'one',
      sizes: small,
      ...more,
    });
    return await use(run, engine);
  } finally {
    await engine.close();
  }
}

/** What a kept run gives. */
export async function outcome(
  run: BatchRun,
  engine: KeepingEngine,
  asked: Asked = csvAlone,
): Promise<Outcome> {
  const about = await run.about();
  const files: Record<string, Buffer> = {};
  for (const [format, units] of asked) {
    const pieces: Uint8Array[] = [];
    await run.put({ format, units, about }, (piece) => void pieces.push(piece));
    files[`${format} ${units}`] = Buffer.concat(pieces);
  }
  let remarks = '';
  for await (const text of remarksText(engine)) remarks += text;
  return { files, about, report: run.report, remarks };
}
