import { openNative } from '../engine/native.ts';
import { createSession } from '../session.ts';
import type { Analyst, Inputs, ReadReport } from '../session-types.ts';
import type { Settings } from '../settings.ts';
import { readAssets } from './files.ts';
import { clearProgress, terminalProgress } from './report.ts';

/** Reads and scores the inputs in memory, and does some work over them. */
export async function overSession(
  settings: Settings,
  inputs: Inputs,
  work: (session: Analyst, report: ReadReport) => Promise<void>,
): Promise<void> {
  const onProgress = terminalProgress();
  const engine = await openNative();
  try {
    const session = createSession(engine, readAssets(), settings);
    const report = await session.open(inputs, onProgress ? { onProgress } : {});
    clearProgress();
    await work(session, report);
  } finally {
    await engine.close();
  }
}
